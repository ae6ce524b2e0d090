import {PitchDetector} from 'pitchy';
import pitchfinder from 'pitchfinder';
import {pitchBoundCents} from '../../source/listening/cramer-rao.ts';
import {hear, hearEnd} from '../../source/listening/hear.ts';
import {type HeardPluck, startListening} from '../../source/listening/listening.ts';
import {believedHz, whichString} from '../../source/listening/which-string.ts';
import {centsBetween} from '../../source/music/pitch.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {oneOf} from '../listening/synthesis/draw.ts';
import type {Take, TakenPluck} from '../listening/synthesis/take.ts';

/** What was made of one pluck; cents are errors, sharp positive. */
export interface Judged {
	readonly take: Take;
	readonly pluck: TakenPluck;
	readonly ours?: {
		readonly cents: number;
		readonly sdCents: number;
		readonly verdict: HeardPluck['verdict'];
		readonly afterS: number;
	};
	readonly isWrongString: boolean;
	readonly isAskedNeedlessly: boolean;
	readonly boundCents: number;
	readonly mcleod?: number;
	readonly autocorrelation?: number;
	/** Errors of fretted minus harmonic, given with the second of the two. */
	readonly intonation?: {readonly ours?: number; readonly mcleod?: number; readonly autocorrelation?: number};
}

/** Samples are handed over in blocks of this size. */
const blockSize = 1024;
/** An onset this near a true one is that pluck, s. */
const nearS = 0.12;

export interface JudgedTake {
	readonly judged: readonly Judged[];
	/** Plucks heard where there were none. */
	readonly strays: number;
	/** Processor time spent listening, and how long the sound was, s. */
	readonly spentS: number;
	readonly soundS: number;
}

export function judgeTake(rng: Rng, drawn: Take): JudgedTake {
	// One instrument in four has never been read: all that is known is where its strings are to be.
	const isUnread = rng.uniform() < 0.25;
	const take = isUnread ? {...drawn, places: drawn.places.map(({string, targetHz}) => ({string, targetHz}))} : drawn;
	const hints = {believedHz: believedHz(take.places)};
	const before = process.cpuUsage();
	let listening = startListening(take.sampleRateHz);
	const heard: HeardPluck[] = [];
	for (let from = 0; from < take.samples.length; from += blockSize) {
		const now = hear(listening, take.samples.subarray(from, from + blockSize), hints);
		listening = now.listening;
		heard.push(...now.plucks);
	}

	heard.push(...hearEnd(listening, hints).plucks);
	const spent = process.cpuUsage(before);
	const used = new Set<HeardPluck>();
	const judged: Judged[] = [];
	for (const pluck of take.plucks) {
		const match = heard.find(h => !used.has(h) && h.tone && Math.abs(h.onsetS - pluck.atS) < nearS);
		if (match) used.add(match);
		const {mcleod, autocorrelation} = detectors(take, pluck);
		const ours = match?.tone && {
			cents: centsBetween(match.tone.hz, pluck.hz),
			sdCents: match.tone.sdCents,
			verdict: match.verdict,
			afterS: match.toldS - pluck.atS,
		};
		const one: Judged = {
			take,
			pluck,
			...(ours ? {ours} : {}),
			...namedRight(rng, take, pluck, match),
			boundCents: pitchBoundCents({
				partials: pluck.partials.filter(p => Number.isInteger(p.n)),
				stiffness: pluck.law.stiffness,
				noise: take.noise,
				sampleRateHz: take.sampleRateHz,
				fromS: 0.05,
				toS: 0.8,
				glide: {relative: 2 ** (pluck.tone.glideCents / 1200) - 1, timeS: pluck.tone.glideTimeS},
			}),
			...(mcleod === undefined ? {} : {mcleod}),
			...(autocorrelation === undefined ? {} : {autocorrelation}),
		};
		const partner = judged.find(
			j =>
				j.pluck.string === pluck.string && j.pluck.way !== pluck.way && j.pluck.way !== 'open' && pluck.way !== 'open',
		);
		judged.push(partner ? {...one, intonation: differences(one, partner)} : one);
	}

	return {
		judged,
		strays: heard.filter(h => !used.has(h) && h.verdict === 'settled').length,
		spentS: (spent.user + spent.system) / 1e6,
		soundS: take.samples.length / take.sampleRateHz,
	};
}

/** Whether the string was named wrongly, or asked about although the right one was meant and played. */
function namedRight(
	rng: Rng,
	{places}: Take,
	pluck: TakenPluck,
	match: HeardPluck | undefined,
): Pick<Judged, 'isWrongString' | 'isAskedNeedlessly'> {
	if (!match?.tone) return {isWrongString: false, isAskedNeedlessly: false};
	// Half the time a string was asked for; one time in ten another one is played than was asked for.
	const isAsked = rng.uniform() < 0.5;
	const isMistaken = isAsked && rng.uniform() < 0.1;
	const asked = isMistaken
		? oneOf(
				rng,
				places.filter(p => p.string !== pluck.string),
			).string
		: pluck.string;
	const verdict = whichString(match.tone, places, {
		semitonesUp: pluck.way === 'open' ? 0 : 12,
		...(isAsked ? {asked} : {}),
	});
	return {
		isWrongString: verdict.kind === 'string' && verdict.string !== pluck.string,
		isAskedNeedlessly: verdict.kind === 'doubtful' && !isMistaken,
	};
}

function differences(a: Judged, b: Judged): NonNullable<Judged['intonation']> {
	const taken = (j: Judged) => (j.ours?.verdict === 'settled' ? j.ours.cents : undefined);
	const minus = (x?: number, y?: number) => (x === undefined || y === undefined ? undefined : x - y);
	const [ours, mcleod, autocorrelation] = [
		minus(taken(a), taken(b)),
		minus(a.mcleod, b.mcleod),
		minus(a.autocorrelation, b.autocorrelation),
	];
	return {
		...(ours === undefined ? {} : {ours}),
		...(mcleod === undefined ? {} : {mcleod}),
		...(autocorrelation === undefined ? {} : {autocorrelation}),
	};
}

/** Median over frames of about 93 ms from 0.2 to 0.8 s after the true onset, cents off; undefined if nothing was found. */
function detectors(
	{samples, sampleRateHz}: Take,
	{atS, hz}: TakenPluck,
): {readonly mcleod?: number; readonly autocorrelation?: number} {
	const frame = 4096;
	const mcleod = PitchDetector.forFloat32Array(frame);
	const autocorrelation = pitchfinder.ACF2PLUS({sampleRate: sampleRateHz});
	const found = {mcleod: [] as number[], autocorrelation: [] as number[]};
	for (
		let from = Math.round((atS + 0.2) * sampleRateHz);
		from + frame <= Math.min(samples.length, (atS + 0.8) * sampleRateHz);
		from += frame
	) {
		const part = samples.subarray(from, from + frame);
		const [pitch, clarity] = mcleod.findPitch(part, sampleRateHz);
		if (clarity > 0.5 && pitch > 0) found.mcleod.push(pitch);
		const other = autocorrelation(part);
		if (other !== null && other > 0) found.autocorrelation.push(other);
	}

	const middle = (pitches: readonly number[]) => [...pitches].sort((a, b) => a - b)[pitches.length >> 1];
	const off = (pitch?: number) => (pitch === undefined ? undefined : centsBetween(pitch, hz));
	const [a, b] = [off(middle(found.mcleod)), off(middle(found.autocorrelation))];
	return {...(a === undefined ? {} : {mcleod: a}), ...(b === undefined ? {} : {autocorrelation: b})};
}
