/** Files that can't be read as a combination at all, or in parts, with every line they are answered with. */
import { fileWith } from './files.ts';

const heads = (rest: string): string => fileWith({ heads: `{ valvesPerCylinder: 2, ${rest} }` });

export const BAD_DOCUMENTS: readonly (readonly [what: string, text: string, ...lines: readonly string[]])[] =
  [
    ['an empty file', '', 'e.yaml is empty'],
    ['a list', '- 1', 'e.yaml is not a combination: sections such as engine: are expected'],
    [
      'a list in which a field stands twice',
      '- bore: 4 in\n  bore: 5 in\n',
      'e.yaml:2:3 0.bore is given twice, first on line 1: keep one of the two',
      'e.yaml is not a combination: sections such as engine: are expected',
    ],
    [
      'broken YAML',
      'engine: [',
      'e.yaml:1:10 is not readable YAML: Flow sequence in block collection must be sufficiently indented and end with a ]',
    ],
    [
      'a tab before a field, over which a parser stumbles again and again',
      'engine:\n  bore: 4 in\n\tstroke: 3 in\n  rod: 6 in\nheads:\n  intake: { valve: 2 in }\n',
      'e.yaml:3:1 is not readable YAML: Tabs are not allowed as indentation (put spaces in place of tabs)',
    ],
    [
      'a field further in than the one above it',
      'engine:\n  bore: 81 mm\n   stroke: 79 mm\n  cylinders: 4\n',
      'e.yaml:2:9 is not readable YAML: Nested mappings are not allowed in compact mappings (the line below stands further in than the fields beside it, or this value holds a colon and wants quotes)',
    ],
    [
      'a field further out than the one above it',
      'engine:\n  bore: 81 mm\n stroke: 79 mm\n',
      'e.yaml:3:1 is not readable YAML: All mapping items must start at the same column (fields of one section stand in one column)',
    ],
    [
      'an equals sign in place of a colon',
      'engine = { bore = 81 mm }\nchamber: { compression: 9.5 }\n',
      'e.yaml:1:1 is not readable YAML: Implicit keys need to be on a single line (a name is followed by a colon and a space, as in bore: 81 mm)',
    ],
    [
      'a port with less area than its flow takes',
      heads(
        'flow: port.csv, exhaust: { valve: 1.6 in, portVolume: 44 cc, portLength: 3 in }, intake: { portArea: 1.3 in2 }',
      ),
      'e.yaml:3:32 heads.flow at 0.5 in lift: flow is 1.07 of what the smallest cross-section can pass: a wrong area, depression or reading (the smallest is portArea, 1.3 in2)',
      'e.yaml:3:32 heads.flow at 0.5 in lift: flow is 1.13 of what the smallest cross-section can pass: a wrong area, depression or reading (the smallest is portVolume over portLength, 0.895 in2)',
    ],
    [
      'a field twice',
      'engine: { bore: 4 in, bore: 5 in, stroke: 3 kg, cylinders: 8 }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 2 }\n',
      'e.yaml:1:23 engine.bore is given twice, first on line 1: keep one of the two',
      "e.yaml:1:35 engine.stroke needs a length, got '3 kg' (use in, mm, cm, thou, ft, m)",
    ],
    [
      'an alias',
      'engine: &x { bore: 4 in }\nheads: *x',
      'e.yaml:1:12 engine uses an anchor or alias (write the value out in each place)',
      'e.yaml:2:8 heads uses an anchor or alias (write the value out in each place)',
    ],
    [
      'a tag',
      'engine: !!js/function "x"',
      'e.yaml:1:23 engine uses a tag, !!js/function (write the value alone)',
    ],
    [
      'a tag that YAML knows',
      fileWith({ mixture: '{ lambda: !!float 1 }' }),
      'e.yaml:4:28 mixture.lambda uses a tag, !!float (write the value alone)',
    ],
    [
      'an anchor on a name',
      'engine: { bore: 4 in, stroke: 3.48 in, cylinders: 8 }\n&c chamber: { compression: 9 }',
      'e.yaml:2:4 uses an anchor or alias (write the value out in each place)',
    ],
    [
      'a directive that makes no and yes into false and true',
      '%YAML 1.1\n---\nengine: { bore: 4 in }',
      'e.yaml has a YAML directive (take the line that begins with % out)',
    ],
    [
      'two documents',
      'engine: {}\n---\nengine: {}',
      'e.yaml:2:1 holds more than one document: keep one engine a file',
    ],
    ['a prototype', '__proto__: { x: 1 }', "e.yaml:1:1 has a field named '__proto__'"],
    [
      'no number',
      fileWith({ mixture: '{ lambda: .nan }' }),
      'e.yaml:4:20 mixture.lambda is not a finite number',
    ],
    [
      'infinity',
      fileWith({ mixture: '{ lambda: .inf }' }),
      'e.yaml:4:20 mixture.lambda is not a finite number',
    ],
    ['ten thousand brackets', '['.repeat(10_000), 'e.yaml cannot be read: it is nested too deep'],
    ['ten thousand dashes', '- '.repeat(10_000), 'e.yaml cannot be read: it is nested too deep'],
    [
      'a very long file',
      ' '.repeat(400_001),
      'e.yaml is too long: 400001 characters, at most 400000 are read',
    ],
    [
      'a bare number',
      fileWith({ engine: '{ bore: 4, stroke: 3.48 in, cylinders: 8 }' }),
      'e.yaml:1:11 engine.bore needs a length with its unit, such as 4 in: 4 alone could be anything',
    ],
    [
      'a mass for a length',
      fileWith({ engine: '{ bore: 4 kg, stroke: 3.48 in, cylinders: 8 }' }),
      "e.yaml:1:11 engine.bore needs a length, got '4 kg' (use in, mm, cm, thou, ft, m)",
    ],
    [
      'an unknown unit',
      fileWith({ engine: '{ bore: 4 inn, stroke: 3.48 in, cylinders: 8 }' }),
      "e.yaml:1:11 engine.bore has an unknown unit 'inn' in '4 inn' (use in, mm, cm, thou, ft, m)",
    ],
    [
      'the wrong unit of length',
      fileWith({ engine: '{ bore: 4.155 mm, stroke: 3.48 in, cylinders: 8 }' }),
      "e.yaml:1:11 engine.bore is impossible: '4.155 mm' is outside 20 mm to 250 mm (did you mean 4.155 in?)",
    ],
    [
      'mercury for water',
      heads('bench: { depression: 28 inHg }'),
      "e.yaml:3:41 heads.bench.depression is impossible: '28 inHg' is outside 1 inH2O to 120 inH2O (did you mean 28 inH2O?)",
    ],
    [
      'a decimal comma',
      fileWith({ engine: '{ bore: "4,155 in", stroke: 3.48 in, cylinders: 8 }' }),
      "e.yaml:1:11 engine.bore has a decimal comma in '4,155 in' (write 4.155 in)",
    ],
    [
      'a misspelt field, once and not also as missing',
      fileWith({ engine: '{ boer: 4 in, stroke: 3.48 in, cylinders: 8 }' }),
      'e.yaml:1:11 engine.boer is not a field of this file (did you mean bore?)',
    ],
    [
      'a misspelt section',
      fileWith({ heades: '{}' }),
      'e.yaml:4:1 heades is not a field of this file (did you mean heads?)',
    ],
    [
      'a misspelt word',
      fileWith({ chamber: '{ shape: pentroof, compression: 9 }' }),
      'e.yaml:2:12 chamber.shape must be one of wedge, bathtub, bowl-in-piston, hemispherical, pent-roof; got ' +
        "'pentroof' (did you mean pent-roof?)",
    ],
    [
      'nothing but a bore',
      'engine: { bore: 4 in }',
      'e.yaml chamber has neither a compression ratio nor a chamber volume (give chamber.compression, or chamber.volume and the other volumes)',
      'e.yaml heads is missing (write heads: { valvesPerCylinder: 2 })',
      'e.yaml:1:1 engine.stroke is missing',
      'e.yaml:1:1 engine.cylinders is missing',
    ],
  ];
