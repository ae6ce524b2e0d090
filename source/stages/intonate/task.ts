import {type SaddleWay, saddleWayCosts} from '../../planning/saddle-ways.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatLength} from '../../units/length.ts';
import {formatNumber, formatTrimmed} from '../../units/number.ts';
import {formatCount, formatPercent} from '../../units/quantities.ts';
import {type Choice, choiceTask} from '../common/choices.ts';
import {clawByEarTask} from '../common/claw-by-ear.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import {nameOf, stringsNamed} from '../common/rows.ts';
import {isReadAfter, lastOf} from '../common/story.ts';
import {aimShown, centsShown} from '../common/say.ts';
import {guided, reasonWords, stringCaution} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {fretTask} from './fret-task.ts';
import {errorOf, id, isAccepted, isMoved, learningOf, planned, statusOf, travelMmOf} from './status.ts';
import {holdOf, stepOf, wayChoice} from './step.ts';
import {
	errorWords,
	expectedLine,
	misledLine,
	planLines,
	reachLines,
	readLines,
	suspicionLine,
	travelShown,
	verdictLine,
} from './travel.ts';
import {wishTask} from './wish-task.ts';
import {words} from './words.ts';

/** The ways with what they cost, every saddle being off until it was read. */
export function waysFor(bench: Bench): readonly Choice<SaddleWay>[] {
	const known = bench.strings.filter(row => ['good', 'to-move'].includes(statusOf(row, bench)));
	const good = known.filter(row => statusOf(row, bench) === 'good').length;
	const again = known.map(({saddle}) => 1 - (saddle?.chanceWithin.after ?? 1));
	const costs = saddleWayCosts({
		strings: bench.strings.length,
		toMove: bench.strings.length - good,
		secondMoveChance: again.reduce((sum, chance) => sum + chance, 0) / Math.max(1, again.length),
	});
	return shownWays.map(value => {
		const {adjustments, slackPeriods} = costs.find(({way}) => way === value)!;
		const say = known.length === 0 ? words.ways.cost : words.ways.costFromHere;
		const times = formatNumber(slackPeriods, 0);
		const periods = times === '1' ? words.ways.once : words.ways.times(times);
		return {value, label: words.ways.labels[value], note: say(formatNumber(adjustments, 0), periods)};
	});
}

/** The cheapest by measurement first; its condition is said when the support goes in. */
const shownWays = ['blocked', 'string-by-string', 'all-at-once'] as const satisfies readonly SaddleWay[];

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	const progress = progressOf(bench);
	switch (step.kind) {
		case 'choose': {
			const why = words.ways.why(formatTrimmed(bench.sheet.frettedToleranceCents, 1));
			const said = {headline: words.ways.headline, why, progress};
			const choice = choiceTask(wayChoice, waysFor(bench), shownWays[0], said);
			return {...choice, how: [...(choice.how ?? []), words.ways.changeOver]};
		}
		case 'learn':
			return learnTask(step.row, bench, progress);
		case 'frets':
			return fretTask(step.row, bench, progress);
		case 'wishes':
			return wishTask(bench, progress);
		case 'bring-up':
			return bringUpTask(step.row, step.aimCents, bench, progress);
		case 'support':
			return supportTask(words.support, {type: 'SupportPlaced'}, progress);
		case 'probe':
			return readTask(bench, step.row, words.probe, progress);
		case 'unsupport':
			return {...supportTask(words.unsupport, {type: 'SupportRemoved'}, progress), act: {kind: 'unsupport'}};
		case 'slacken':
			return slackenTask(step.rows, bench, progress);
		case 'move':
			return moveTask(step.row, bench, progress);
		case 'tune':
			// The plan may hold that nothing is to be done while a slack string waits; a pluck is never wrong.
			return guidedTask(bench, progress) ?? readTask(bench, bench.strings[0]!, reasonWords['prove-result'], progress);
		case 'claw':
			return clawByEarTask(bench, step.due, words.clawWhy, progress);
		case 'done':
			return doneTask(bench);
	}
}

/** A pluck, a check or a measure, as the plan of this saddle wants it. */
function learnTask(row: StringRow, bench: Bench, progress: number): Task {
	const step = planned(row);
	const learning = learningOf(row, bench);
	const why =
		step.kind === 'check'
			? words.check.why(words.causes[step.cause], formatPercent(step.chance))
			: step.kind === 'read' && step.why === 'too-close-to-call'
				? isClearlyOut(row)
					? words.forDistance
					: words.closeCall
				: undefined;
	if (learning.kind === 'measure') {
		const {headline, prompt, ...said} = words.place;
		const practice = {kind: 'measure-saddle', string: row.string} as const;
		return {
			...said,
			...(why !== undefined && {why}),
			headline: headline(nameOf(row)),
			prompt: prompt(nameOf(row)),
			how: [...checkLines(row, bench), ...said.how],
			tableRests: true,
			string: row.string,
			practice,
			progress,
		};
	}
	const {how} = learning;
	const said = words[how];
	const usualWhy = how === 'fretted' && isMoved(row.string, bench) ? words.fretted.proof : said.why;
	return {
		headline: soundingHeadline(row, how, bench),
		why: why ?? usualWhy,
		how: [...checkLines(row, bench), ...pluckLines(row), ...said.how, ...readLines(row), ...misledLine(row, bench)],
		prompt: said.prompt(nameOf(row)),
		example: said.example,
		string: row.string,
		practice: {kind: 'pluck', string: row.string, how, ...(how === 'fretted' && {fret: 12})},
		progress,
	};
}

/** A string that is moved whatever further plucks say. */
function isClearlyOut({saddle}: StringRow): boolean {
	return saddle !== undefined && saddle.chanceWithin.now < 0.02;
}

/** How many plucks are wanted here. */
function pluckLines(row: StringRow): readonly string[] {
	const step = planned(row);
	return step.kind === 'read' ? [words.plucks(formatCount(step.plucks, 'pluck'))] : [];
}

/** What the check will tell, and where a saddle to be measured should stand by what was done to it. */
function checkLines(row: StringRow, bench: Bench): readonly string[] {
	const step = planned(row);
	if (step.kind !== 'check') return [];
	// A ruler told already: only more plucks can tell now.
	if (step.check === 'measure-saddle' && learningOf(row, bench).kind === 'sound') return [];
	const {sheet} = bench;
	const {saddleMm} = row;
	const place = step.check === 'measure-saddle' && saddleMm !== undefined ? formatLength(saddleMm, sheet.units) : '';
	return [words.check.tells[step.check], ...(place === '' ? [] : [words.check.shouldStand(place)])];
}

/** Up to where the string will stand at pitch once the support is out. */
function bringUpTask(row: StringRow, aimCents: number, bench: Bench, progress: number): Task {
	const {string} = row;
	const way = !row.now || row.now.mean <= aimCents ? guided.up : guided.down;
	const by = bench.nut === 'locked' ? 'fine-tuner' : 'peg';
	return {
		headline: guided.turn(nameOf(row), way, aimShown(row, aimCents, bench)),
		why: words.bringUp,
		how: [guided.comeUp, guided.softly],
		prompt: guided.afterTurning(nameOf(row)),
		example: centsShown(aimCents).replace('−', '-'),
		string,
		act: {kind: 'turn', string, toCents: aimCents},
		cautions: [stringCaution],
		practice: {kind: 'turn', string, toCents: aimCents, by},
		progress,
	};
}

function soundingHeadline(row: StringRow, how: 'harmonic' | 'fretted', bench: Bench): string {
	const name = nameOf(row);
	const step = planned(row);
	if (step.kind === 'check' && step.check === 'press-lightly' && how === 'fretted')
		return words.check['press-lightly'](name);
	if (step.kind === 'check' && step.check === 'harmonic-again' && how === 'harmonic')
		return words.check['harmonic-again'](name);
	const isAgain = isReadAfter(bench.story, row.string, how, bench.lastAdjustment);
	return how === 'fretted' && isAgain ? words.fretted.second(name) : words[how].headline(name);
}

function supportTask(
	said: {
		readonly headline: string;
		readonly why: string;
		readonly how?: readonly string[];
		readonly enter: string;
	},
	deed: Deed,
	progress: number,
): Task {
	const {enter: label, ...rest} = said;
	const deeds = [deed];
	return {...rest, prompt: label, enter: {label, deeds}, practice: {kind: 'deeds', deeds}, progress};
}

function slackenTask(rows: readonly StringRow[], bench: Bench, progress: number): Task {
	const strings = rows.map(({string}) => string);
	const {headline, why, how, prompt, enter: label} = words.slacken;
	const deeds = strings.map(string => ({type: 'StringSlackened', string}) as const);
	return {
		headline: headline(stringsNamed(strings)),
		why: bench.blocked ? words.meanwhile.supported : why,
		how: [...holdLine(bench), ...planLines(rows, bench), ...(rows.length > 1 ? [how] : [])],
		prompt,
		act: {kind: 'slacken', strings},
		...(strings.length === 1 && {string: strings[0]!}),
		cautions: [words.cautions.slack],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress,
	};
}

/** What the two plucks on the support told. */
function holdLine(bench: Bench): readonly string[] {
	const hold = bench.blocked ? holdOf(bench) : undefined;
	return hold ? [words.held[hold]] : [];
}

/** Where the others have gone while this one is slack, and that they will return. */
function meanwhileLine(bench: Bench): string {
	if (bench.blocked) return words.meanwhile.supported;
	const away = bench.strings
		.filter(({state, now}) => state !== 'slack' && now !== undefined)
		.reduce<StringRow | undefined>(
			(most, row) => (most && Math.abs(most.now!.mean) >= Math.abs(row.now!.mean) ? most : row),
			undefined,
		);
	if (!away || Math.abs(away.now!.mean) < bench.toleranceCents) return words.meanwhile.floating;
	return words.meanwhile.most(nameOf(away), formatCentsSpread(away.now!));
}

function moveTask(row: StringRow, bench: Bench, progress: number): Task {
	const {move} = words;
	const travelMm = travelMmOf(row);
	const travel = travelShown(travelMm, bench);
	const deeds = movedDeeds(row, travelMm);
	return {
		headline: move.headline(nameOf(row), `${travel}, ${travelMm >= 0 ? move.back : move.forward}`),
		why: move.why(errorWords(row, bench), formatTrimmed(bench.sheet.frettedToleranceCents, 1)),
		how: [
			...reachLines(row, bench),
			...expectedLine(row),
			...suspicionLine(row),
			meanwhileLine(bench),
			...readLines(row),
			...misledLine(row, bench),
			...move.how,
		],
		prompt: move.prompt(nameOf(row)),
		example: move.example,
		string: row.string,
		cautions: [words.cautions.slack, words.cautions.screw],
		enter: {label: move.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress,
	};
}

/** A saddle set, with the hole if the screw had to change it. */
export function movedDeeds({string, saddle}: StringRow, travelMm: number): readonly Deed[] {
	const reach = saddle?.reach;
	const hole = reach?.kind === 'reachable' && reach.changesHole ? {hole: reach.hole} : {};
	return [{type: 'SaddleMoved', string, travelMm, ...hole}];
}

function doneTask(bench: Bench): Task {
	const {headline, notAll, why, none} = words.done;
	const out = bench.strings
		.filter(row => Math.abs(errorOf(row)?.mean ?? 0) > bench.sheet.frettedToleranceCents)
		.map(({string}) => string);
	const worst = bench.strings
		.map(row => ({row, error: errorOf(row) ?? {mean: 0, sd: 0}}))
		.reduce((a, b) => (Math.abs(b.error.mean) > Math.abs(a.error.mean) ? b : a));
	const isUnheard = Math.abs(worst.error.mean) <= (worst.row.saddle?.resolvableCents ?? worst.error.sd);
	const said = [
		why(nameOf(worst.row), errorWords(worst.row, bench)),
		...(isUnheard ? [words.withinTuner] : []),
		...(lastOf(bench.story, 'SaddleMoved') < 0 ? [none] : []),
	];
	const how = bench.strings.flatMap(row => verdictLine(row, bench, isAccepted(row.string, bench)));
	const unread = bench.strings.filter(row => !errorOf(row)).map(({string}) => string);
	const notRead = unread.length > 0 ? [words.verdict.unread(stringsNamed(unread))] : [];
	const isAll = out.length === 0;
	return passTask(id, {
		headline: isAll ? headline : notAll(stringsNamed(out)),
		why: said.join(' '),
		how: [...how, ...notRead],
	});
}

/** Strings read count a half, strings good the whole; retuning is part of the last of them. */
function progressOf(bench: Bench): number {
	const weights = {'to-read': 0, 'to-move': 0.4, 'to-prove': 0.7, good: 1} as const;
	const sum = bench.strings.reduce((total, row) => total + weights[statusOf(row, bench)], 0);
	return (sum / bench.strings.length) * (0.8 + 0.19 * tuningShare(bench));
}
