import type {Bench} from '../../session/bench.ts';
import type {Entry} from '../../session/entry/entry.ts';
import type {InstrumentSheet} from '../../session/sheet.ts';

/** One thing that is asked about the instrument; the menu, the questions and their reading come from one list of these. */
export interface Field {
	readonly id: string;
	readonly label: string;
	/** Its value in a few words. */
	shown(sheet: InstrumentSheet): string;
	/** How to say it, short lines. */
	how(sheet: InstrumentSheet): readonly string[];
	example(sheet: InstrumentSheet): string;
	/** The sheet with what was typed. */
	read(text: string, sheet: InstrumentSheet): Entry<InstrumentSheet>;
	/** Why what was filled in can no longer be measured, if so. */
	tooLate?(bench: Bench, filled: InstrumentSheet): string | undefined;
	/** Where measuring it can hurt. */
	readonly cautions?: readonly string[];
	/** Not asked for every job. */
	isAsked?(sheet: InstrumentSheet): boolean;
}
