import {readLength} from '../../session/entry/measures.ts';
import {springArm as limit} from '../../session/limits.ts';
import {formatTypedLength} from '../../units/length.ts';
import {mapEntry} from '../common/map-entry.ts';
import type {Field} from './field.ts';
import {words} from './words.ts';

/** The arm that the springs pull on, if somebody measured it. */
export const springArm: Field = {
	id: 'spring-arm',
	label: words.labels.springArm,
	shown: ({springArmMm, units}) =>
		springArmMm === undefined ? words.notMeasured : formatTypedLength(springArmMm, units),
	how: () => words.hows.springArm,
	example: () => `${limit.example} mm`,
	read(text, sheet) {
		const typed = text.trim();
		const {springArmMm: _, ...rest} = sheet;
		if (typed.toLowerCase() === words.notMeasured) return {kind: 'value', value: rest, entered: typed};
		const asked = {
			what: 'a spring arm',
			range: [limit.low, limit.high],
			usual: [30, 50],
			exampleMm: limit.example,
		} as const;
		return mapEntry(readLength(text, sheet.units, asked), springArmMm => ({...sheet, springArmMm}));
	},
};
