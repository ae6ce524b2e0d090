/**
 * `npm run bench:listening [takes per company] [seed]`: synthetic plucks of
 * every string of six, seven and eight, open, harmonic and fretted, heard by
 * our listening from onset to string, and by two kept detectors from npm that
 * are told the onset. The truth is looked at only to judge.
 */
import {quantile} from 'simple-statistics';
import {rngFrom} from '../../source/numeric/rng.ts';
import {companies, drawTake, ways} from '../listening/synthesis/take.ts';
import {judgeTake, type Judged} from './listening-judge.ts';

const takes = Number(process.argv[2] ?? 6);
const seed = Number(process.argv[3] ?? 1);
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
let noPluck = 0;
const started = performance.now();
for (const [c, company] of companies.entries()) {
	for (let i = 0; i < takes; i++) {
		const rng = rngFrom(seed, c, i);
		const strings = ([6, 7, 8] as const)[i % 3]!;
		const take = drawTake(rng, {strings, company, spacingS});
		const {judged, strays} = judgeTake(rng, take);
		all.push(...judged);
		noPluck += strays;
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
	`\n${all.length} plucks, ${spacingS} s apart; plucks heard where there were none: ${noPluck}; ${((performance.now() - started) / 1000).toFixed(0)} s`,
);
