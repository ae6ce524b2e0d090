import {stringNumbers} from '../music/string-number.ts';
import type {Deed, Fact, HeardPitch, Stamp} from './facts.ts';
import type {Journal} from './journal.ts';
import {
	type Check,
	hasShape,
	isFlag,
	isListOf,
	isNumber,
	isOneOf,
	isRecord,
	isText,
	isWhole,
	optional,
	type ShapeOf,
} from './shape.ts';
import {type InstrumentSheet, jobs, type StringSheet} from './sheet.ts';

/** True when a value read from a file can be taken for a journal: known facts, whole fields, entries in order. */
export function isJournal(value: unknown): value is Journal {
	if (!isRecord(value)) return false;
	const {story, undone} = value;
	if (!isListOfFacts(story) || !Array.isArray(undone)) return false;
	const isInOrder = story.every((fact, index) => index === 0 || fact.entry >= story[index - 1]!.entry);
	return isInOrder && undone.every(isEntry);
}

function isEntry(value: unknown): boolean {
	return isListOfFacts(value) && value.length > 0 && value.every(fact => fact.entry === value[0]?.entry);
}

function isListOfFacts(value: unknown): value is readonly Fact[] {
	return Array.isArray(value) && value.every(isFact);
}

export function isFact(value: unknown): value is Fact {
	if (!isRecord(value) || typeof value.type !== 'string') return false;
	if (!Object.hasOwn(deedChecks, value.type)) return false;
	return isStamp(value) && deedChecks[value.type as Deed['type']](value);
}

const isStringNumber = isOneOf(stringNumbers);

const isPair: Check = value => Array.isArray(value) && value.length === 2 && value.every(isNumber);

const stringSheet: ShapeOf<StringSheet> = {
	note: isText,
	offsetCents: optional(isNumber),
	gaugeThou: isNumber,
	wound: isFlag,
	coreThou: optional(isNumber),
	frettedOffsetCents: optional(isNumber),
	actionMm: optional(isNumber),
	saddleRangeMm: optional(isPair),
	saddleMm: optional(isNumber),
};
const isStringSheets = isListOf(hasShape(stringSheet));

const sheet: ShapeOf<InstrumentSheet> = {
	name: isText,
	strings: isStringSheets,
	scaleLengthMm: isNumber,
	referenceAHz: isNumber,
	springs: isNumber,
	clawScrewPitchMm: isNumber,
	plateWishMm: isNumber,
	tailArmMm: isNumber,
	openToleranceCents: isNumber,
	frettedToleranceCents: isNumber,
	actionMm: isNumber,
	nutHeightMm: isNumber,
	units: hasShape({length: isOneOf(['mm', 'in']), force: isOneOf(['N', 'lbf', 'kgf'])}),
	job: isOneOf(jobs),
	before: optional(isStringSheets),
	springArmMm: optional(isNumber),
	springLengthsMm: optional(isPair),
	clawTurnsLeft: optional(isPair),
	practiceSeed: optional(isNumber),
};

const stamp: ShapeOf<Stamp> = {at: isNumber, entry: value => isWhole(value) && (value as number) > 0};
const isStamp = hasShape(stamp);

const heardPitch: ShapeOf<HeardPitch> = {
	sdCents: isNumber,
	stiffness: optional(hasShape({mean: isNumber, sd: isNumber})),
	tunerCents: optional(isNumber),
};

type DeedShapes = {readonly [T in Deed['type']]: ShapeOf<Omit<Extract<Deed, {type: T}>, 'type'>>};

const deedShapes: DeedShapes = {
	SheetFilled: {sheet: hasShape(sheet)},
	StagePassed: {stage: isText},
	StageReopened: {stage: isText},
	ItemTicked: {item: isText, done: isFlag},
	WayChosen: {choice: isText, value: isText},
	NoteWritten: {text: isText},
	NutOpened: {},
	NutClamped: {},
	FineTunersCentred: {},
	SupportPlaced: {tailMm: optional(isNumber)},
	SupportRemoved: {},
	ClawTurned: {
		trebleTurns: isNumber,
		bassTurns: isNumber,
		until: optional(
			hasShape({string: isStringNumber, cents: isNumber, from: optional(isOneOf(['rising', 'falling']))}),
		),
	},
	SpringsChanged: {springs: isNumber},
	PlateMeasured: {
		tailMm: isNumber,
		sidesMm: optional(hasShape({treble: isNumber, bass: isNumber})),
		entered: isText,
	},
	StringRemoved: {string: isStringNumber},
	StringFitted: {string: isStringNumber},
	StringSlackened: {string: isStringNumber},
	StringStretched: {string: isStringNumber},
	PegTurned: {string: isStringNumber, untilCents: optional(isNumber)},
	FineTunerTurned: {string: isStringNumber, untilCents: optional(isNumber)},
	PitchRead: {
		string: isStringNumber,
		how: isOneOf(['open', 'harmonic', 'fretted']),
		fret: optional(isNumber),
		cents: isNumber,
		entered: isText,
		meant: optional(isFlag),
		heard: optional(hasShape(heardPitch)),
	},
	StringSlipped: {string: isStringNumber},
	DayPassed: {},
	SaddleMoved: {string: isStringNumber, travelMm: isNumber, hole: optional(isOneOf(['front', 'back']))},
	SaddleMeasured: {string: isStringNumber, positionMm: isNumber},
	ArmMoved: {motion: isOneOf(['dive', 'pull-up', 'bend'])},
};

const deedChecks = Object.fromEntries(
	Object.entries(deedShapes).map(([type, shape]) => [type, hasShape(shape)]),
) as Readonly<Record<Deed['type'], Check>>;
