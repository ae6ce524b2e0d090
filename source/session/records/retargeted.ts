import {targetHzOf} from '../instrument.ts';
import type {InstrumentSheet} from '../sheet.ts';

/**
 * A guitar as one sheet has it, its strings' cents counted from the targets of
 * another. The same sheet where the targets are the same, and the same object
 * every time, so that what was worked out for it is found again.
 *
 * @returns Undefined when the other sheet has another number of strings: then nothing can be counted from it.
 */
export function retargeted(guitar: InstrumentSheet, targets: InstrumentSheet): InstrumentSheet | undefined {
	if (guitar.strings.length !== targets.strings.length) return undefined;
	if (hasSameTargets(guitar, targets)) return guitar;
	const byTargets = retargetedSheets.get(guitar) ?? new WeakMap<InstrumentSheet, InstrumentSheet>();
	retargetedSheets.set(guitar, byTargets);
	const known = byTargets.get(targets) ?? {
		...guitar,
		referenceAHz: targets.referenceAHz,
		strings: guitar.strings.map(({offsetCents: _, ...row}, index) => {
			const {note, offsetCents} = targets.strings[index]!;
			return {...row, note, ...(offsetCents !== undefined && {offsetCents})};
		}),
	};
	byTargets.set(targets, known);
	return known;
}

const retargetedSheets = new WeakMap<InstrumentSheet, WeakMap<InstrumentSheet, InstrumentSheet>>();

function hasSameTargets(one: InstrumentSheet, other: InstrumentSheet): boolean {
	return one.strings.every(
		(row, index) => targetHzOf(row, one.referenceAHz) === targetHzOf(other.strings[index] ?? row, other.referenceAHz),
	);
}
