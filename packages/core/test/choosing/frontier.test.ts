import { describe, expect, it } from 'vitest';
import { frontierHopes, frontierOf } from '../../src/choosing/frontier.ts';

const priced = (cost: number, gain: number) => ({ cost, gain });
const hoped = (build: number, cost: number, mean: number, sigma: number) => ({
  build: [build],
  cost,
  mean,
  sigma,
});

describe('frontierOf(all)', () => {
  it('keeps what nothing cheaper or as dear beats, rising in cost', () => {
    const all = [priced(300, 2), priced(100, 1), priced(200, 0.5), priced(100, 0.8), priced(400, 2)];
    expect(frontierOf(all)).toEqual([priced(100, 1), priced(300, 2)]);
  });
});

describe('frontierHopes(frontier, unseen, count)', () => {
  const frontier = [priced(100, 1), priced(300, 2)];

  it('hopes most of what may beat the best that its money buys by most, one build for each sum', () => {
    // At 200 the bar is the 1 % that 100 buys, at 300 it is 2 %.
    const unseen = [
      hoped(1, 200, 1.5, 0),
      hoped(2, 200, 1.4, 0),
      hoped(3, 300, 2.7, 0),
      hoped(4, 300, 1.9, 0),
    ];
    expect(frontierHopes(frontier, unseen, 5)).toEqual([[3], [1]]);
    expect(frontierHopes(frontier, unseen, 1)).toEqual([[3]]);
  });

  it('counts what is not known of a build: a wide guess below the bar may beat a sure one at it', () => {
    // Expected improvement 1 % below the bar, known to 2 %: 2 (phi(0.5) - 0.5 Q(0.5)) = 0.396 %.
    expect(frontierHopes(frontier, [hoped(1, 100, 0, 2), hoped(2, 100, 1.3, 0)], 1)).toEqual([[1]]);
    expect(frontierHopes(frontier, [hoped(1, 100, 0, 2), hoped(2, 100, 1.5, 0)], 1)).toEqual([[2]]);
  });

  it('looks at nothing that will hardly move the frontier, or is cheaper than all of it', () => {
    expect(frontierHopes(frontier, [hoped(1, 100, 1.01, 0), hoped(2, 50, 9, 0)], 5)).toEqual([]);
  });
});
