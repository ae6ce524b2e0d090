import type {StringNumber} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {Fact, HeardPitch, Story} from './facts.ts';

/** What a string's own sound told of its intonation. */
export interface EarsTold {
	/** Fretted 12th minus harmonic, of the first partials: what the saddle answers to, cents. */
	readonly cents: number;
	/** The same as a tuner that looks for the sound's period would have shown it; absent where it would have been lost. */
	readonly tunerCents?: number;
	/** Stiffness coefficient of the open string; absent where too few partials sounded. */
	readonly stiffness?: Estimate;
}

type Heard = Fact & {readonly type: 'PitchRead'; readonly heard: HeardPitch};

/**
 * Harmonic and fretted 12th of one string as they were heard since anything
 * was touched, plucks of a kind averaged. Undefined until both were heard.
 *
 * @param touches True of a fact that may have moved this string's pitch.
 */
export function earsTold(story: Story, string: StringNumber, touches: (fact: Fact) => boolean): EarsTold | undefined {
	const since = heardOf(story.slice(story.findLastIndex(touches) + 1), string);
	const harmonic = since.filter(({how}) => how === 'harmonic');
	const fretted = since.filter(({how, fret = 12}) => how === 'fretted' && fret === 12);
	if (harmonic.length === 0 || fretted.length === 0) return undefined;
	const tuner = [fretted, harmonic].map(facts => meanOf(facts.flatMap(({heard}) => heard.tunerCents ?? [])));
	const [byTuner, ofHarmonic] = tuner;
	const stiffness = heardStiffnessOf(story, string);
	return {
		cents: meanOf(fretted.map(({cents}) => cents))! - meanOf(harmonic.map(({cents}) => cents))!,
		...(byTuner !== undefined && ofHarmonic !== undefined && {tunerCents: byTuner - ofHarmonic}),
		...(stiffness && {stiffness}),
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
	return story.filter((fact): fact is Heard => fact.type === 'PitchRead' && fact.string === string && !!fact.heard);
}

function meanOf(numbers: readonly number[]): number | undefined {
	return numbers.length === 0 ? undefined : numbers.reduce((sum, each) => sum + each, 0) / numbers.length;
}
