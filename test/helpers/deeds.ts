import fc from 'fast-check';
import {type StringNumber, stringNumbers} from '../../source/music/string-number.ts';
import type {Deed, HeardPitch} from '../../source/session/facts.ts';
import {emptyJournal, type Journal, record, undo} from '../../source/session/journal.ts';
import {type InstrumentSheet, jobs, type StringSheet} from '../../source/session/sheet.ts';

/** An invented six-string as it comes in. */
export const sheet: InstrumentSheet = {
	name: 'Invented six-string',
	strings: [
		{note: 'E4', gaugeThou: 10, wound: false},
		{note: 'B3', gaugeThou: 13, wound: false},
		{note: 'G3', gaugeThou: 17, wound: false},
		{note: 'D3', gaugeThou: 26, wound: true},
		{note: 'A2', gaugeThou: 36, wound: true},
		{note: 'E2', gaugeThou: 46, wound: true},
	],
	scaleLengthMm: 648,
	referenceAHz: 440,
	springs: 3,
	clawScrewPitchMm: 1.7,
	plateWishMm: 0,
	tailArmMm: 30,
	openToleranceCents: 1,
	frettedToleranceCents: 2,
	actionMm: 1.6,
	nutHeightMm: 0.5,
	units: {length: 'mm', force: 'N'},
	job: 'whole',
};

export const filled: Deed = {type: 'SheetFilled', sheet};
export const opened: Deed = {type: 'NutOpened'};

export function read(string: StringNumber, cents: number, how: 'open' | 'harmonic' | 'fretted' = 'open'): Deed {
	return {type: 'PitchRead', string, how, cents, entered: String(cents)};
}

/** One entry a deed, a second apart. */
export function journalOf(...deeds: readonly Deed[]): Journal {
	return deeds.reduce((journal, deed, index) => record(journal, [deed], 1000 * index), emptyJournal);
}

/** Without -0, which JSON does not keep apart from 0. */
const number = fc.double({noNaN: true, noDefaultInfinity: true}).map(value => value + 0);
export const string = fc.constantFrom(...stringNumbers);

const stringSheet: fc.Arbitrary<StringSheet> = fc.record(
	{
		note: fc.oneof(fc.constantFrom('E4', 'F#2', 'Bb3', 'C0', 'G9'), fc.string()),
		offsetCents: number,
		gaugeThou: fc.oneof(fc.integer({min: 8, max: 60}), number),
		wound: fc.boolean(),
		coreThou: fc.oneof(fc.integer({min: 8, max: 20}), number),
		frettedOffsetCents: number,
		actionMm: number,
		saddleRangeMm: fc.tuple(number, number),
		saddleMm: number,
	},
	{requiredKeys: ['note', 'gaugeThou', 'wound']},
);

/** Anything of the right shape, most of it impossible. */
export const anySheet: fc.Arbitrary<InstrumentSheet> = fc.record(
	{
		name: fc.string(),
		strings: fc.array(stringSheet, {maxLength: 9}),
		scaleLengthMm: number,
		referenceAHz: number,
		springs: number,
		clawScrewPitchMm: number,
		plateWishMm: number,
		tailArmMm: number,
		openToleranceCents: number,
		frettedToleranceCents: number,
		actionMm: number,
		nutHeightMm: number,
		units: fc.record({
			length: fc.constantFrom('mm' as const, 'in' as const),
			force: fc.constantFrom('N' as const, 'lbf' as const, 'kgf' as const),
		}),
		job: fc.constantFrom(...jobs),
		before: fc.array(stringSheet, {maxLength: 9}),
		practiceSeed: fc.nat(),
	},
	{
		requiredKeys: [
			'name',
			'strings',
			'scaleLengthMm',
			'referenceAHz',
			'springs',
			'clawScrewPitchMm',
			'plateWishMm',
			'tailArmMm',
			'openToleranceCents',
			'frettedToleranceCents',
			'actionMm',
			'nutHeightMm',
			'units',
			'job',
		],
	},
);

const pitch = {
	string,
	how: fc.constantFrom('open' as const, 'harmonic' as const, 'fretted' as const),
	cents: fc.oneof(
		fc.double({min: -100, max: 100, noNaN: true}).map(value => value + 0),
		number,
	),
	entered: fc.string(),
};

const heardPitch: fc.Arbitrary<HeardPitch> = fc.record(
	{sdCents: number, stiffness: fc.record({mean: number, sd: number}), tunerCents: number},
	{requiredKeys: ['sdCents']},
);

type DeedOf<T extends Deed['type']> = Extract<Deed, {type: T}>;

/** One arbitrary for each kind of deed; a new kind does not compile until it has one. */
export const deedsByType: {readonly [T in Deed['type']]: fc.Arbitrary<DeedOf<T>>} = {
	SheetFilled: kind('SheetFilled', {sheet: fc.oneof(fc.constant(sheet), anySheet)}),
	StagePassed: kind('StagePassed', {stage: fc.constantFrom('unlock', 'tune', 'balance')}),
	StageReopened: kind('StageReopened', {stage: fc.constantFrom('unlock', 'tune', 'balance')}),
	ItemTicked: kind('ItemTicked', {item: fc.string(), done: fc.boolean()}),
	WayChosen: kind('WayChosen', {choice: fc.string(), value: fc.string()}),
	NoteWritten: kind('NoteWritten', {text: fc.string({unit: 'grapheme'})}),
	NutOpened: kind('NutOpened', {}),
	NutClamped: kind('NutClamped', {}),
	FineTunersCentred: kind('FineTunersCentred', {}),
	SupportPlaced: kind('SupportPlaced', {}),
	SupportRemoved: kind('SupportRemoved', {}),
	ClawTurned: kind('ClawTurned', {trebleTurns: number, bassTurns: number}),
	SpringsChanged: kind('SpringsChanged', {springs: fc.integer({min: 0, max: 8})}),
	PlateMeasured: kind('PlateMeasured', {tailMm: number, entered: fc.string()}),
	StringRemoved: kind('StringRemoved', {string}),
	StringFitted: kind('StringFitted', {string}),
	StringSlackened: kind('StringSlackened', {string}),
	StringStretched: kind('StringStretched', {string}),
	PegTurned: kind('PegTurned', {string}),
	FineTunerTurned: kind('FineTunerTurned', {string, untilCents: number}),
	PitchRead: fc.oneof(kind('PitchRead', pitch), kind('PitchRead', {...pitch, heard: heardPitch})),
	StringSlipped: kind('StringSlipped', {string}),
	SaddleMoved: kind('SaddleMoved', {
		string,
		travelMm: number,
		hole: fc.constantFrom('front' as const, 'back' as const),
	}),
	SaddleMeasured: kind('SaddleMeasured', {string, positionMm: number}),
	DayPassed: fc.constant({type: 'DayPassed'} as const),
	ArmMoved: kind('ArmMoved', {motion: fc.constantFrom('dive' as const, 'pull-up' as const, 'bend' as const)}),
};

type Fields<T extends Deed['type']> = {[K in Exclude<keyof DeedOf<T>, 'type'>]: fc.Arbitrary<DeedOf<T>[K]>};

function kind<T extends Deed['type']>(type: T, fields: Partial<Fields<T>>): fc.Arbitrary<DeedOf<T>> {
	return fc.record({type: fc.constant(type), ...fields}) as unknown as fc.Arbitrary<DeedOf<T>>;
}

export const anyDeed: fc.Arbitrary<Deed> = fc.oneof(...Object.values(deedsByType));

/** Entries of one to three deeds, recorded by a clock that may jump, some of them undone. */
export const anyJournal: fc.Arbitrary<Journal> = fc
	.tuple(
		fc.array(fc.tuple(fc.array(anyDeed, {minLength: 1, maxLength: 3}), fc.integer({min: 0, max: 2e12})), {
			maxLength: 20,
		}),
		fc.nat({max: 5}),
	)
	.map(([entries, undos]) => {
		let journal = entries.reduce((before, [deeds, now]) => record(before, deeds, now), emptyJournal);
		for (let count = 0; count < undos; count++) journal = undo(journal);
		return journal;
	});
