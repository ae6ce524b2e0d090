/**
 * `npm run bench:listening -- [takes per company] [seed] [minutes of nobody] [names of sounds]`: synthetic plucks of
 * every string of six, seven and eight, open, harmonic and fretted, heard by
 * our listening from onset to string, and by two kept detectors from npm that
 * are told the onset. The truth is looked at only to judge. Then: sounds that
 * are no plucks, and what listening costs.
 */
import {quantile} from 'simple-statistics';
import {rngFrom} from '../../source/numeric/rng.ts';
import {companies, drawTake, ways} from '../listening/synthesis/take.ts';
import {judgeTake, type Judged} from './listening-judge.ts';
import {nobodyPlays} from './listening-nobody.ts';
import {printSourceStamp} from './source-stamp.ts';

const takes = Number(process.argv[2] ?? 6);
const seed = Number(process.argv[3] ?? 1);
const minutes = Number(process.argv[4] ?? 10);
const names = process.argv.slice(5);
const spacingS = 1.5;

const fixed = (values: readonly number[], p: number) => (values.length > 0 ? quantile([...values], p).toFixed(3) : '-');
const percent = (part: number, whole: number) => (whole > 0 ? `${((100 * part) / whole).toFixed(1)} %` : '-');

/** Error within this counts as the right octave and note, cents. */
const grossCents = 50;

function line(name: string, judged: readonly Judged[]): string {
	const taken = judged.filter(j => j.ours?.verdict === 'settled');
	const right = taken.filter(j => Math.abs(j.ours!.cents) < grossCents);
	const errors = right.map(j => Math.abs(j.ours!.cents));
	const covered = right.filter(j => Math.abs(j.ours!.cents) < 2 * j.ours!.sdCents).length;
	const cells = [
		name.padEnd(28),
		String(judged.length).padStart(5),
		fixed(errors, 0.5).padStart(8),
		fixed(errors, 0.95).padStart(8),
		fixed(errors, 1).padStart(8),
		fixed(
			judged.map(j => j.boundCents),
			0.5,
		).padStart(8),
		percent(covered, right.length).padStart(8),
		String(taken.length - right.length).padStart(6),
		percent(judged.filter(j => !j.ours).length, judged.length).padStart(8),
		percent(judged.filter(j => j.ours && j.ours.verdict !== 'settled').length, judged.length).padStart(8),
		String(judged.filter(j => j.isWrongString).length).padStart(6),
		percent(judged.filter(j => j.isAskedNeedlessly).length, judged.length).padStart(8),
		fixed(
			taken.map(j => j.ours!.afterS),
			0.5,
		).padStart(7),
		fixed(
			taken.map(j => j.ours!.afterS),
			0.95,
		).padStart(7),
	];
	for (const detector of ['mcleod', 'autocorrelation'] as const) {
		const others = judged.map(j => j[detector]).filter(x => x !== undefined);
		const near = others.map(Math.abs).filter(x => x < grossCents);
		cells.push(
			`${fixed(near, 0.5).padStart(8)}${fixed(near, 0.95).padStart(8)}${percent(judged.length - near.length, judged.length).padStart(8)}`,
		);
	}

	return cells.join('');
}

const all: Judged[] = [];
let [noPluck, spentS, soundS] = [0, 0, 0];
printSourceStamp();
const started = performance.now();
for (const [c, company] of companies.entries()) {
	for (let i = 0; i < takes; i++) {
		const rng = rngFrom(seed, c, i);
		const strings = ([6, 7, 8] as const)[i % 3]!;
		const take = drawTake(rng, {strings, company, spacingS});
		const heard = judgeTake(rng, take);
		all.push(...heard.judged);
		noPluck += heard.strays;
		spentS += heard.spentS;
		soundS += heard.soundS;
	}
}

const head = [
	'',
	`${''.padEnd(28)}${'ours'.padStart(5)}${''.padEnd(102)}${'McLeod (npm)'.padStart(24)}${'autocorr. (npm)'.padStart(24)}`,
	[
		'cents'.padEnd(28),
		'n'.padStart(5),
		'median'.padStart(8),
		'95 %'.padStart(8),
		'worst'.padStart(8),
		'bound'.padStart(8),
		'in 2 sd'.padStart(8),
		'octave'.padStart(6),
		'missed'.padStart(8),
		'unsure'.padStart(8),
		'wrong'.padStart(6),
		'asked'.padStart(8),
		'after s'.padStart(7),
		'95 %'.padStart(7),
		...['median', '95 %', 'gross', 'median', '95 %', 'gross'].map(x => x.padStart(8)),
	].join(''),
];
console.log(head.join('\n'));
for (const company of companies) {
	const these = all.filter(j => j.take.company === company);
	console.log(line(company, these));
	for (const way of ways)
		console.log(
			line(
				`  ${way}`,
				these.filter(j => j.pluck.way === way),
			),
		);
	console.log(
		line(
			'  samples lost',
			these.filter(j => j.pluck.loss),
		),
	);
	console.log(
		line(
			'  cut off at full scale',
			these.filter(j => j.take.isClipped),
		),
	);
	console.log(
		line(
			'  below 70 Hz',
			these.filter(j => j.pluck.hz < 70),
		),
	);
	const intonation = these.flatMap(j => j.intonation ?? []);
	if (intonation.length > 0) {
		const of = (key: 'ours' | 'mcleod' | 'autocorrelation') =>
			intonation
				.map(x => x[key])
				.filter(x => x !== undefined)
				.map(Math.abs);
		console.log(
			`  fretted minus harmonic, error: ours ${fixed(of('ours'), 0.5)} / ${fixed(of('ours'), 0.95)}, McLeod ${fixed(of('mcleod'), 0.5)} / ${fixed(of('mcleod'), 0.95)}, autocorrelation ${fixed(of('autocorrelation'), 0.5)} / ${fixed(of('autocorrelation'), 0.95)} (median / 95 %, ${intonation.length} pairs)`,
		);
	}
}

console.log(
	`\n${all.length} plucks, ${spacingS} s apart, seed ${seed}; plucks heard where there were none: ${noPluck}; listening took ${percent(spentS, soundS)} of one core; ${((performance.now() - started) / 1000).toFixed(0)} s in all`,
);

/** Aims hold for the sounds that were promised: not for input turned up until it is cut off. */
const promised = all.filter(j => !j.take.isClipped);
const taken = promised.filter(j => j.ours?.verdict === 'settled');
const aims: readonly (readonly [what: string, got: string, isMet: boolean])[] = [
	...companies.map(company => {
		const errors = taken.filter(j => j.take.company === company).map(j => Math.abs(j.ours!.cents));
		return [
			`95 % within 0.2 cents, ${company}`,
			fixed(errors, 0.95),
			errors.length > 0 && quantile(errors, 0.95) <= 0.2,
		] as const;
	}),
	...[
		['octave errors taken', taken.filter(j => Math.abs(j.ours!.cents) >= grossCents).length] as const,
		['wrong string taken without asking', all.filter(j => j.isWrongString).length] as const,
	].map(([what, count]) => [what, String(count), count === 0] as const),
	...companies.map(company => {
		const these = promised.filter(j => j.take.company === company);
		const lost = these.length - these.filter(j => j.ours?.verdict === 'settled').length;
		return [
			`under 2 % of plucks without a reading, ${company}`,
			percent(lost, these.length),
			lost < 0.02 * these.length,
		] as const;
	}),
];
if (promised.length > 0) console.log(`\nAims (input not cut off at full scale, ${promised.length} plucks)`);
for (const [what, got, isMet] of promised.length > 0 ? aims : [])
	console.log(`  ${what.padEnd(58)}${got.padStart(8)}  ${isMet ? 'met' : 'MISSED'}`);

console.log('\nNobody plucks: onsets told, those taken for a string without asking');
console.log(
	`${''.padEnd(28)}${['minutes', 'settled', 'unsure', 'moving', 'no pitch', 'taken', 'of a core', 'heap MB, early and late'].map(x => x.padStart(11)).join('')}`,
);
for (const {name, told, taken: without, coreShare, heapMb} of nobodyPlays(
	minutes,
	names.length > 0 ? names : undefined,
)) {
	const cells = [minutes, told.settled, told.unsure, told.moving, told['no-pitch'], without, percent(coreShare, 1)].map(
		x => String(x).padStart(11),
	);
	console.log(`${name.padEnd(28)}${cells.join('')}${heapMb.map(x => x.toFixed(1).padStart(11)).join('')}`);
}
