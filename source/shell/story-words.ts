import type {Deed, Fact, Story} from '../session/facts.ts';
import type {InstrumentSheet} from '../session/sheet.ts';
import {formatCentsUnit} from '../units/cents.ts';
import {formatTail, formatTravel, formatTypedLength} from '../units/length.ts';
import {formatCount} from '../units/quantities.ts';
import {formatTurns} from '../units/turns.ts';

/** What happened, in the past tense, for the story of a set-up and for "taken back". */
export function wordsFor(deed: Deed, {units, strings}: Pick<InstrumentSheet, 'units' | 'strings'>): string {
	const name = (string: number) => `string ${string} (${strings[string - 1]?.note ?? '?'})`;
	switch (deed.type) {
		case 'SheetFilled':
			return `instrument: ${formatCount(deed.sheet.strings.length, 'string')}, ${formatTypedLength(deed.sheet.scaleLengthMm, deed.sheet.units)}, ${deed.sheet.name}`;
		case 'StagePassed':
			return `step done: ${deed.stage}`;
		case 'StageReopened':
			return `step opened again: ${deed.stage}`;
		case 'ItemTicked':
			return `${deed.done ? 'ticked' : 'unticked'}: ${deed.item}`;
		case 'WayChosen':
			return `chosen: ${deed.choice} ${deed.value}`;
		case 'NoteWritten':
			return `note: ${deed.text}`;
		case 'NutOpened':
			return 'nut unlocked';
		case 'NutClamped':
			return 'nut clamped';
		case 'FineTunersCentred':
			return 'fine tuners set to mid-travel';
		case 'SupportPlaced':
			return deed.tailMm === undefined
				? 'support put under the bridge'
				: `support put under the bridge, tail ${formatTail(deed.tailMm, units)}`;
		case 'SupportRemoved':
			return 'support taken out';
		case 'ClawTurned':
			if (deed.until)
				return `both claw screws turned until ${name(deed.until.string)} showed ${formatCentsUnit(deed.until.cents)}`;
			return deed.trebleTurns === deed.bassTurns
				? `both claw screws ${formatTurns(deed.trebleTurns)}`
				: `claw screws: treble side ${formatTurns(deed.trebleTurns)}, bass side ${formatTurns(deed.bassTurns)}`;
		case 'SpringsChanged':
			return `${formatCount(deed.springs, 'spring')} fitted`;
		case 'PlateMeasured':
			return `plate measured: tail ${formatTail(deed.tailMm, units)}`;
		case 'StringRemoved':
			return `${name(deed.string)} taken off`;
		case 'StringFitted':
			return `${name(deed.string)} put on`;
		case 'StringSlackened':
			return `${name(deed.string)} slackened`;
		case 'StringStretched':
			return `${name(deed.string)} pulled and stretched`;
		case 'PegTurned':
			return `${name(deed.string)} turned${until(deed.untilCents)}`;
		case 'FineTunerTurned':
			return `${name(deed.string)} fine tuner turned${until(deed.untilCents)}`;
		case 'PitchRead':
			return `${name(deed.string)} ${sounded(deed)} ${formatCentsUnit(deed.cents)}`;
		case 'StringSlipped':
			return `${name(deed.string)} slipped`;
		case 'SaddleMoved':
			return `saddle of ${name(deed.string)} moved ${formatTravel(deed.travelMm, units)}`;
		case 'SaddleMeasured':
			return `saddle of ${name(deed.string)} measured: ${formatTypedLength(deed.positionMm, units)}`;
		case 'DayPassed':
			return 'left alone for a day or so';
		case 'ArmMoved':
			return {dive: 'arm: dive and back', 'pull-up': 'arm: pull up and back', bend: 'bend and back'}[deed.motion];
		default: {
			const unhandled: never = deed;
			throw new RangeError(`wordsFor: expected a known type of deed, got ${JSON.stringify(unhandled)}`);
		}
	}
}

function until(cents: number | undefined): string {
	return cents === undefined ? '' : ` towards ${formatCentsUnit(cents)}`;
}

function sounded({how, fret, heard}: Extract<Deed, {type: 'PitchRead'}>): string {
	const by = heard ? 'heard' : 'read';
	if (how === 'open') return by;
	return how === 'harmonic' ? `harmonic ${by}` : `fretted at ${fret ?? 12} ${by}`;
}

/** One entry in a line: what one press of Enter stored. Choices on the way through a step are named only where nothing else happened. */
export function entryWords(facts: readonly Deed[], sheet: InstrumentSheet): string {
	const telling = facts.filter(({type}) => type !== 'WayChosen');
	const ticks = telling.filter(({type}) => type === 'ItemTicked');
	if (ticks.length > 1 && ticks.length === telling.length) return `${formatCount(ticks.length, 'item')} ticked`;
	return (telling.length > 0 ? telling : facts).map(fact => wordsFor(fact, sheet)).join('; ');
}

/** True for an entry that only chose the way, such as which question comes next. */
export function isWayOnly(facts: readonly Deed[]): boolean {
	return facts.every(({type}) => type === 'WayChosen');
}

/** The entries of a story, oldest first. */
export function entriesOf(story: Story): readonly (readonly Fact[])[] {
	const entries: Fact[][] = [];
	for (const fact of story) {
		const last = entries.at(-1);
		if (last?.[0]?.entry === fact.entry) last.push(fact);
		else entries.push([fact]);
	}

	return entries;
}
