/** The report's one style sheet: plain, for screen, telephone and paper. */

import { paletteCss } from './draw/palette.ts';
import { FONT } from './draw/toSvg.ts';

export const STYLE_SHEET: string = `${paletteCss(':root')}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.5 ${FONT}}
main,header,footer{max-width:64rem;margin:0 auto;padding:0 1rem}
header{padding-top:1.5rem}
h1{font-size:1.05rem;font-weight:600;color:var(--soft);margin:0}
h2{font-size:1.25rem;line-height:1.3;margin:2.5rem 0 .75rem;padding-top:.75rem;border-top:2px solid var(--ink)}
h3{font-size:1rem;margin:0 0 .35rem}
h1,h2,h3,p,li,td,th,dd,summary{overflow-wrap:anywhere}
.answer{font-size:1.6rem;line-height:1.25;font-weight:700;margin:.35rem 0 .6rem}
.beyond{font-weight:600;margin:0 0 .6rem;max-width:46rem}
.job{margin:.1rem 0 0;color:var(--soft);font-size:.875rem}
.job span+span{margin-left:1.25rem}
#notes p{max-width:46rem;white-space:pre-line;margin:.4rem 0}
.basis{margin:.2rem 0;color:var(--soft);max-width:46rem}
.notice{margin:1rem 0;padding:.6rem .9rem;border:1px solid var(--b);border-left-width:6px;background:var(--panel)}
.notice ul,.plain{margin:.3rem 0;padding-left:1.2rem}
.order{list-style:none;padding-left:0}
.notice h2{border:0;margin:0;padding:0;font-size:1rem}
.charts{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,25rem),1fr));gap:1.75rem 2rem;margin:0 0 1.75rem}
.lead{margin:0 0 1.75rem}
figure{margin:0;min-width:0}
figure svg{display:block;width:100%;height:auto}
.narrow{display:none}
figcaption{font-size:.875rem;color:var(--soft);margin:.4rem 0 0}
details{font-size:.875rem;margin:.35rem 0 0}
summary{cursor:pointer;color:var(--a);padding:.25rem 0}
summary:focus-visible,.scroll:focus-visible{outline:3px solid var(--a);outline-offset:2px}
.scroll{overflow-x:auto}
table{border-collapse:collapse;font-variant-numeric:tabular-nums;font-size:.875rem}
td{white-space:nowrap}
th,td{padding:.22rem .6rem .22rem 0;text-align:right;vertical-align:top;border-bottom:1px solid var(--rule)}
th{font-weight:600;overflow-wrap:normal}
thead th{vertical-align:bottom;border-bottom:2px solid var(--ink)}
th .unit{display:block;font-weight:400;color:var(--soft)}
.words{text-align:left;overflow-wrap:break-word;white-space:normal}
th.words{min-width:8rem}
.ledger{width:100%}
.ledger td,.ledger th{text-align:left;white-space:normal}
.ledger th:first-child{width:34%}
.ledger th:nth-child(2){width:20%}
.scroll+.scroll{margin-top:1.25rem}
.sheet{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(100%,15rem),1fr));gap:.4rem 1.5rem;margin:0}
.sheet div{border-bottom:1px solid var(--rule);padding:.15rem 0}
.sheet dt{font-size:.8125rem;color:var(--soft)}
.sheet dd{margin:0}
footer{margin-top:2.5rem;padding-bottom:2rem;font-size:.875rem}
@media (max-width:40rem){
.wide{display:none}
.narrow{display:block}
.answer{font-size:1.3rem}
.ledger,.ledger tbody,.ledger tr,.ledger td{display:block}
.ledger thead{display:none}
.ledger tr{border-bottom:1px solid var(--rule);padding:.4rem 0}
.ledger td{border:0;padding:0}
.ledger td:first-child{font-weight:600}
}
@media print{
@page{margin:14mm}
body{font-size:10pt}
main,header,footer{max-width:none;padding:0}
header{padding-top:0}
h2{break-after:avoid;margin-top:1.5rem}
.answer{font-size:15pt}
.charts{grid-template-columns:1fr 1fr;gap:1rem 1.25rem}
figure,.notice,tr,.sheet div{break-inside:avoid}
figure details{display:none}
.lead .wide{display:block}
.lead .narrow{display:none}
table{font-size:8.5pt}
.scroll{overflow:visible}
}
`;
