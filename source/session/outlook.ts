import type {Learned} from '../estimation/memory.ts';
import type {Belief} from '../estimation/belief.ts';
import {only, holdCents} from '../estimation/hold.ts';
import {stringNumbers} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {consequencesOf} from '../planning/forecast.ts';
import {centsOf, endPlaces} from '../planning/landing.ts';
import {planTuning, type TuningPlan} from '../planning/tuning-plan.ts';
import type {Outlook} from './bench.ts';
import {beliefOf} from './belief-of.ts';
import {goalOf} from './bench-of.ts';
import {stateOf} from './evolve.ts';
import type {Fact, Story} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';

/** The plan ahead, what moves what, and how the errors shrank. Undefined parts are empty lists; see Outlook. */
export function outlookOf(story: Story, learned?: Learned): Outlook {
	const known = outlooks.get(story);
	if (known && known.learned === learned) return known.outlook;
	const outlook = derive(story, learned);
	outlooks.set(story, {learned, outlook});
	return outlook;
}

const outlooks = new WeakMap<Story, {learned: Learned | undefined; outlook: Outlook}>();

function derive(story: Story, learned: Learned | undefined): Outlook {
	const {sheet, nut} = stateOf(story);
	if (!sheet) return {order: [], errorsAfterStep: [], movesPerTenCents: () => []};
	const belief = beliefOf(story, sheet, learned);
	const plan = planTuning(
		belief,
		goalOf(sheet, nut),
		sheet.strings.map(() => 1),
	);
	let moves: ReturnType<Outlook['movesPerTenCents']> | undefined;
	return {
		order: orderOf(belief, plan),
		errorsAfterStep: story.flatMap((fact, at) =>
			isAdjustment(fact) ? [errorsOnce(story, Math.min(at + 1, story.length - 1), sheet, learned)] : [],
		),
		movesPerTenCents: () => {
			moves ??= sheet.strings.map((_, index) => movesOfTenCents(belief, index));
			return moves;
		},
	};
}

/** Errors once the fact at this place is known. A fact stands on the same facts for ever, so they are worked out once. */
function errorsOnce(story: Story, at: number, sheet: InstrumentSheet, learned: Learned | undefined): Errors {
	const ofSheet = errors.get(sheet);
	const memory = ofSheet && ofSheet.learned === learned ? ofSheet : {learned, byFact: new WeakMap<Fact, Errors>()};
	errors.set(sheet, memory);
	const fact = story[at]!;
	const known = memory.byFact.get(fact) ?? errorsOf(beliefOf(story.slice(0, at + 1), sheet, learned));
	memory.byFact.set(fact, known);
	return known;
}

type Errors = Outlook['errorsAfterStep'][number];
const errors = new WeakMap<
	InstrumentSheet,
	{readonly learned: Learned | undefined; readonly byFact: WeakMap<Fact, Errors>}
>();

function isAdjustment({type}: Fact): boolean {
	return type === 'PegTurned' || type === 'FineTunerTurned' || type === 'ClawTurned';
}

/** What every string heard so far is believed to be off by, cents. */
function errorsOf(belief: Belief): Errors {
	const cents = centsOf(belief, belief.mean);
	return cents.map((each, index) => (belief.strings[index]!.everRead ? each : undefined));
}

/** Every turn still to come, the aims as they will be once those before are done. */
function orderOf(belief: Belief, plan: TuningPlan): Outlook['order'] {
	const end = holdCents(belief, belief.mean, endPlaces(plan)).x;
	let x = belief.mean;
	return plan.order.flatMap(index => {
		const next = Float64Array.from(x);
		next[belief.layout.pull(index)] = end[belief.layout.pull(index)]!;
		x = next;
		const mean = centsOf(belief, x)[index];
		const sd = plan.aims[index]?.sd;
		return mean === undefined || sd === undefined ? [] : [{string: stringNumbers[index]!, aimCents: {mean, sd}}];
	});
}

/** Cents that every string moves when one is turned up by ten, from where they stand. */
function movesOfTenCents(belief: Belief, index: number): readonly Estimate[] {
	const {on, everRead} = belief.strings[index]!;
	const now = on === 'sounding' && everRead ? (centsOf(belief, belief.mean)[index] ?? 0) : undefined;
	// A slack or unheard string is shown from pitch, where it will be.
	const from = now === undefined ? heldAtPitch(belief, index) : belief;
	const {moves} = consequencesOf(from, {kind: 'turn', index, toCents: (now ?? 0) + 10});
	return moves.map((move, at) => (at === index ? {mean: 10, sd: 0} : (move ?? {mean: 0, sd: 0})));
}

function heldAtPitch(belief: Belief, index: number): Belief {
	return {...belief, mean: holdCents(belief, belief.mean, only(belief, index, 0)).x};
}
