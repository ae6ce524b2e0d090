/**
 * `npm run bench:diagnosis [guitars] [first seed]`: simulated guitars set up
 * by the tool, clamped, then checked with the arm while sound and with one
 * hidden fault at a time; what the diagnosis says against what is true. Also
 * how many fine tuner turns the locked phase took.
 *
 * Numbers were chosen on seeds 1 to 48; these start at 1001.
 */
import {quantile} from 'simple-statistics';
import {casesOf} from './diagnosis-cases.ts';
import {confusionTable, isRight, type Judged, judged} from './diagnosis-table.ts';
import {printSourceStamp} from './source-stamp.ts';

printSourceStamp();
const count = Number(process.argv[2] ?? 102);
const first = Number(process.argv[3] ?? 1001);

const all: Judged[] = [];
for (let seed = first; seed < first + count; seed++) all.push(...casesOf(seed).map(judged));

const faulty = all.filter(({known}) => known.fault !== undefined);
const sound = all.filter(({known}) => known.fault === undefined);
const alarms = sound.filter(({diagnosis: {verdict}}) => verdict !== 'sound' && verdict !== 'unclear');
const undecided = sound.filter(({diagnosis: {verdict}}) => verdict === 'unclear');
const share = (part: readonly unknown[], whole: readonly unknown[]): string =>
	`${part.length} of ${whole.length} (${((100 * part.length) / Math.max(1, whole.length)).toFixed(1)} %)`;

console.log(
	`${count} guitars, seeds ${first} to ${first + count - 1}, six kinds; reading noise 0.5 cents and display steps of 0.1`,
);
console.log(
	'Read twice, then dive, pull-up and bend, all strings read after each. Rows: the truth; columns: what was said.\n',
);
console.log(confusionTable(all).join('\n'));
console.log(
	`\nright cause named, right string where it is one string's: ${share(faulty.filter(isRight), faulty)}; aim 90 %`,
);
const ranked = faulty.filter(
	({known, diagnosis}) =>
		diagnosis.suspicions[0]!.cause === known.cause &&
		(known.index === undefined || [undefined, known.index].includes(diagnosis.suspicions[0]!.index)),
);
console.log(`right cause first in the list, “cannot tell” counted by its first entry: ${share(ranked, faulty)}`);
for (const [low, high] of [
	[3, 5],
	[5, 10],
	[10, 30],
] as const) {
	const band = faulty.filter(({known}) => known.sizeCents >= low && known.sizeCents < high);
	console.log(`  ${low} to ${high} cents: ${share(band.filter(isRight), band)}`);
}
console.log(`sound guitars with a cause named (false alarm): ${share(alarms, sound)}; aim at most 5 %`);
console.log(`sound guitars told “cannot tell, read again”: ${share(undecided, sound)}`);
const faultyUnclear = faulty.filter(({diagnosis: {verdict}}) => verdict === 'unclear');
console.log(`faulty guitars told “cannot tell, read again”: ${share(faultyUnclear, faulty)}`);
const misfits = all.map(({diagnosis}) => diagnosis.suspicions[0]!.misfit);
console.log(
	`misfit of the likeliest cause: median ${quantile(misfits, 0.5).toFixed(2)}, 95th percentile ${quantile(misfits, 0.95).toFixed(2)} spreads`,
);
