import {stringNumbers} from '../../../source/music/string-number.ts';
import {defaultSheet} from '../../../source/session/catalog/default-sheet.ts';
import type {Deed, Fact, Story} from '../../../source/session/facts.ts';
import type {InstrumentSheet} from '../../../source/session/sheet.ts';
import {openStore} from '../../../source/storage/store.ts';

/** Invented: intake and unlocking done, then strings turned and read in turn, each a little nearer, none there yet. */
export function longStory(length: number, sheet: InstrumentSheet = defaultSheet()): Story {
	const deeds: Deed[] = [
		{type: 'SheetFilled', sheet},
		{type: 'StagePassed', stage: 'intake'},
		{type: 'NutOpened'},
		{type: 'StagePassed', stage: 'unlock'},
		{type: 'PlateMeasured', tailMm: 0.2, entered: '0.2'},
	];
	for (let round = 0; deeds.length < length; round++) {
		const string = stringNumbers[round % sheet.strings.length]!;
		const cents = Math.round(-300 - 900 * 0.8 ** Math.floor(round / sheet.strings.length)) / 10;
		if (round >= sheet.strings.length) deeds.push({type: 'PegTurned', string, untilCents: cents});
		deeds.push({type: 'PitchRead', string, how: 'open', cents, entered: String(cents)});
	}

	return deeds.slice(0, length).map((deed, at): Fact => ({...deed, at: 1000 * at, entry: at + 1}));
}

/** The same in a store; the id to open it by. */
export function keepLongSession(folder: string, length: number): string {
	const opened = openStore({folder, now: () => 1_770_000_000_000});
	if (!opened.ok) throw new Error(opened.said);
	const {id} = opened.store.create({name: 'Invented guitar'});
	const saved = opened.store.save(id, {story: longStory(length), undone: []});
	if (!saved.ok) throw new Error(saved.said);
	return id;
}
