import {rngFrom} from '../../source/numeric/rng.ts';
import {drawGuitar} from '../../source/practice/draw-guitar.ts';
import {priorBelief} from '../../source/estimation/belief.ts';
import {guidedPass} from './tool-pass.ts';
import {goRound, known} from './other-ways.ts';
import {modelOf} from './model-of.ts';
import {openCents} from '../../source/practice/sound.ts';
import {ensembles} from '../../source/practice/index.ts';import {firstBelief} from './first-belief.ts';
const rows=[[9,false,329.628],[11,false,246.942],[16,false,195.998],[24,true,146.832],[32,true,110],[42,true,82.407]] as const;
const spec={strings:rows.map(([g,wound,targetHz])=>({gaugeM:g*25.4e-6,wound,targetHz})),scaleLengthM:.648,springs:3,clawScrewPitchM:.0017,tailArmM:.03,actionM:.0016,nutHeightM:.00035};
const goal={toleranceCents:2,readingCents:.5,handCents:.7};
const start=process.argv[2] as any, n=Number(process.argv[3]), verbose=process.argv[4]==='v';
let adj:number[]=[],gr:number[]=[],kn:number[]=[],pl:number[]=[]; let t=0, cover=0,tot=0, bad=0, strain=0; let z2=0;
for(let s=0;s<n;s++){
 const seed = verbose? s+Number(process.argv[5]??0):s;
 const spec=ensembles[Number(process.argv[6]??0)]!.spec;const g=drawGuitar(rngFrom(seed,1),spec,{start});
 const t0=performance.now();
 const isNew=start==='slack'||start==='new-gauge';
 const prior=firstBelief(g,isNew,start==='slack');
 const r=guidedPass(rngFrom(seed,2),g,prior,goal,verbose);
 t+=performance.now()-t0;
 if(verbose) console.log(r.log.join('\n'));
 const worst=Math.max(...g.strings.map((_,i)=>Math.abs(openCents(r.guitar,i)??999)));
 if(worst>2||!r.finished) bad++;
 adj.push(r.adjustments);pl.push(r.plucks);strain=Math.max(strain,r.strain);
 for(const m of r.shifts){tot++; if(Math.abs(m.true-m.predicted)<=1.645*m.sd)cover++; z2+=((m.true-m.predicted)/m.sd)**2}
 if(!verbose){gr.push(goRound(rngFrom(seed,3),g,goal).adjustments);kn.push(known(rngFrom(seed,4),g,goal).adjustments);}
 else console.log('adjust',r.adjustments,'plucks',r.plucks,'worst',worst.toFixed(2));
}
const q=(a:number[],p:number)=>[...a].sort((x,y)=>x-y)[Math.min(a.length-1,Math.floor(a.length*p))];
console.log(start,'adj',q(adj,.5),q(adj,.95),'plucks',q(pl,.5),q(pl,.95),'goround',q(gr,.5),q(gr,.95),'known',q(kn,.5),q(kn,.95),'bad',bad,'cover',(cover/tot).toFixed(3),'rms z',Math.sqrt(z2/tot).toFixed(2),'strain',strain.toFixed(2),'ms',(t/n).toFixed(0));
