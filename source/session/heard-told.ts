import type {StringNumber} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {Fact, HeardPitch, Story} from './facts.ts';

/** What a string's own sound told of its intonation. */
export interface EarsTold {
	/** Fretted 12th minus harmonic, of the first partials: what the saddle answers to, cents. */
	readonly cents: number;
	/** The same as a tuner that looks for the sound's period would have shown it; absent where it would have been lost. */
	readonly tunerCents?: number;
	/** Saddle travel by which that tuner would have led astray, mm, positive = too far back; absent with it. */
	readonly astrayMm?: number;
	/** Stiffness coefficient of the open string; absent where too few partials sounded. */
	readonly stiffness?: Estimate;
}

type Heard = Fact & {readonly type: 'PitchRead'; readonly heard: HeardPitch};

/**
 * Harmonic and fretted 12th of one string as they were heard at its saddle's
 * present place, the latest pair with nothing touched between, plucks of a kind
 * averaged. Undefined until both were heard.
 *
 * @param touches True of a fact that may have moved this string's pitch.
 * @param slopeCentsPerMm Of the saddle, negative.
 */
export function earsTold(
	story: Story,
	string: StringNumber,
	touches: (fact: Fact) => boolean,
	slopeCentsPerMm: number,
): EarsTold | undefined {
	const came = story.findLastIndex(
		fact => (fact.type === 'SaddleMoved' || fact.type === 'StringFitted') && fact.string === string,
	);
	let pair: Pick<EarsTold, 'cents' | 'tunerCents'> | undefined;
	let since: Heard[] = [];
	for (const fact of story.slice(came + 1)) {
		if (touches(fact)) since = [];
		else if (isHeard(fact, string)) {
			since.push(fact);
			pair = pairIn(since) ?? pair;
		}
	}

	if (!pair) return undefined;
	const {cents, tunerCents} = pair;
	const stiffness = heardStiffnessOf(story, string);
	return {
		...pair,
		...(tunerCents !== undefined && {astrayMm: (tunerCents - cents) / -slopeCentsPerMm}),
		...(stiffness && {stiffness}),
	};
}

function pairIn(heard: readonly Heard[]): Pick<EarsTold, 'cents' | 'tunerCents'> | undefined {
	const harmonic = heard.filter(({how}) => how === 'harmonic');
	const fretted = heard.filter(({how, fret = 12}) => how === 'fretted' && fret === 12);
	const [high, low] = [fretted, harmonic].map(facts => meanOf(facts.map(({cents}) => cents)));
	if (high === undefined || low === undefined) return undefined;
	const [tunerHigh, tunerLow] = [fretted, harmonic].map(facts =>
		meanOf(facts.flatMap(({heard: {tunerCents}}) => tunerCents ?? [])),
	);
	return {
		cents: high - low,
		...(tunerHigh !== undefined && tunerLow !== undefined && {tunerCents: tunerHigh - tunerLow}),
	};
}

/** One pluck does not tell the coefficient better than this, as a share of it, whatever its fit says: judgement. */
const surestShare = 0.05;

/** Stiffness coefficient of the open string by all that was heard of it since it was put on, weighed by how sure each was. */
export function heardStiffnessOf(story: Story, string: StringNumber): Estimate | undefined {
	const fitted = story.findLastIndex(fact => fact.type === 'StringFitted' && fact.string === string);
	let [weights, sum] = [0, 0];
	for (const {heard} of heardOf(story.slice(fitted + 1), string)) {
		if (!heard.stiffness) continue;
		const {mean, sd} = heard.stiffness;
		const weight = 1 / Math.max(sd, surestShare * Math.abs(mean), 1e-9) ** 2;
		weights += weight;
		sum += weight * mean;
	}

	return weights === 0 ? undefined : {mean: sum / weights, sd: 1 / Math.sqrt(weights)};
}

function heardOf(story: Story, string: StringNumber): readonly Heard[] {
	return story.filter((fact): fact is Heard => isHeard(fact, string));
}

function isHeard(fact: Fact, string: StringNumber): fact is Heard {
	return fact.type === 'PitchRead' && fact.string === string && fact.heard !== undefined;
}

function meanOf(numbers: readonly number[]): number | undefined {
	return numbers.length === 0 ? undefined : numbers.reduce((sum, each) => sum + each, 0) / numbers.length;
}
