import type {InstrumentSheet} from '../../session/sheet.ts';
import type {Field} from './field.ts';
import * as other from './other-fields.ts';
import {travel} from './claw-travel.ts';
import {springArm} from './spring-arm.ts';
import {springLengths} from './spring-lengths.ts';
import * as string from './string-fields.ts';

export type {Field};

/** In the order of the menu. */
export const fields: readonly Field[] = [
	string.count,
	string.set,
	string.tuning,
	string.scale,
	other.job,
	string.oldSet,
	string.oldTuning,
	other.name,
	other.reference,
	other.units,
	other.springs,
	other.plate,
	other.action,
	other.tolerances,
	other.screw,
	travel,
	springArm,
	springLengths,
	other.arm,
	other.nut,
	other.practice,
];

/** The fields that this sheet's job asks for; their places are the numbers of the menu. */
export function fieldsFor(sheet: InstrumentSheet): readonly Field[] {
	return fields.filter(field => field.isAsked?.(sheet) ?? true);
}

/**
 * @throws {RangeError} If there is no such field.
 */
export function fieldOf(id: string): Field {
	const field = fields.find(field => field.id === id);
	if (!field) throw new RangeError(`fieldOf: expected id of a field, got ${id}`);
	return field;
}
