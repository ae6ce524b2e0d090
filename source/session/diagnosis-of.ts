import type {Learned} from '../estimation/memory.ts';
import {type StringNumber, stringNumbers} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {type DiagnosisCause, type DiagnosisEvent, diagnose} from '../planning/diagnosis.ts';
import {diagnosisGround} from '../planning/diagnosis-ground.ts';
import {beliefOf} from './belief-of.ts';
import {isWork} from './deed-nature.ts';
import {stateOf} from './evolve.ts';
import type {Fact, Story} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';
import {happeningsOf} from './to-happenings.ts';

/** What the readings since the last adjustment say about the guitar, in the bench's terms. */
export interface BenchDiagnosis {
	/** `unclear`: something is off and these readings do not tell what. */
	readonly verdict: DiagnosisCause | 'unclear';
	/** Where the cause is one string's. */
	readonly string?: StringNumber;
	/** Likeliest first; every cause looked at. */
	readonly suspicions: readonly {
		readonly cause: DiagnosisCause;
		readonly string?: StringNumber;
		/** 0 to 1. */
		readonly probability: number;
		/** What it has done by now, cents; see `planning/diagnosis.ts`. */
		readonly sizeCents: Estimate;
		/** About 1 when it explains all. */
		readonly misfit: number;
	}[];
}

/**
 * Weighs what may have happened since a hand last changed a setting, from the
 * readings after it and what was believed before them.
 *
 * @returns Undefined on a support, where nothing can move, and when nothing was read since.
 */
export function diagnosisOf(story: Story, learned?: Learned): BenchDiagnosis | undefined {
	const {sheet, blocked} = stateOf(story);
	const start = windowStart(story);
	if (!sheet || blocked || start === undefined) return undefined;
	let then = stateOf(story.slice(0, start)).sheet ?? sheet;
	const events = story.slice(start).flatMap(fact => {
		if (fact.type === 'SheetFilled') then = fact.sheet;
		return eventsOf(fact, then, sheet);
	});
	const ground = diagnosisGround(beliefOf(story.slice(0, start), sheet, learned));
	const found = diagnose({...ground, events});
	if (!found) return undefined;
	return {
		verdict: found.verdict,
		...(found.index === undefined ? {} : {string: stringNumbers[found.index]!}),
		suspicions: found.suspicions.map(({index, ...suspicion}) => ({
			...suspicion,
			...(index === undefined ? {} : {string: stringNumbers[index]!}),
		})),
	};
}

/** Place of the first fact after the last work; a turn is over when its string was read. */
function windowStart(story: Story): number | undefined {
	// An arm's movement or a night is what is judged, so it does not begin a window; what comes of work is the belief's business.
	const at = story.findLastIndex(isWork);
	const fact = story[at];
	if (fact?.type !== 'PegTurned' && fact?.type !== 'FineTunerTurned') return at + 1;
	const read = story.findIndex(
		(next, index) => index > at && next.type === 'PitchRead' && next.string === fact.string && next.how !== 'fretted',
	);
	return read < 0 ? undefined : read + 1;
}

/** @param then The sheet in force when the fact was recorded. */
function eventsOf(fact: Fact, then: InstrumentSheet, sheet: InstrumentSheet): readonly DiagnosisEvent[] {
	if (fact.type === 'DayPassed') return [{kind: 'night'}];
	if (fact.type === 'ArmMoved') return [{kind: 'arm', motion: fact.motion}];
	if (fact.type === 'PitchRead' && fact.how === 'fretted') return [{kind: 'plucked', index: fact.string - 1}];
	return happeningsOf(fact, then, sheet).flatMap((happening): readonly DiagnosisEvent[] => {
		if (happening.kind === 'pitch') return [{kind: 'read', index: happening.index, cents: happening.cents}];
		return happening.kind === 'tail' ? [{kind: 'tail', tailMm: happening.tailM * 1000}] : [];
	});
}
