import type {Entry} from '../../session/entry/entry.ts';
import {readQuantity} from '../../session/entry/quantity.ts';
import {clawTurnsLeft} from '../../session/limits.ts';
import {formatTrimmed} from '../../units/number.ts';
import type {Field} from './field.ts';
import {words} from './words.ts';

/** Thread and travel that the claw screws have left, both ways; the usual when nobody counted. */
export const travel: Field = {
	id: 'travel',
	label: words.labels.travel,
	shown: ({clawTurnsLeft: left}) =>
		left ? words.travelLeft(formatTrimmed(left[0], 2), formatTrimmed(left[1], 2)) : words.notMeasured,
	how: () => words.hows.travel,
	example: () => '5 looser 6 tighter',
	read(text, sheet) {
		const typed = text.trim();
		const {clawTurnsLeft: _, ...rest} = sheet;
		if (typed.toLowerCase() === words.notMeasured) return {kind: 'value', value: rest, entered: typed};
		const [, one = '', other = ''] =
			/^(\S+(?:\s+turns?)?\s+looser)[\s,;]+(\S+(?:\s+turns?)?\s+tighter)$/i.exec(typed) ??
			/^(\S+?)(?:\s*[;/]\s*|,?\s+)(\S+)$/.exec(typed) ??
			[];
		if (one === '') return refused(typed);
		const [looser, tighter] = [readLeft(one), readLeft(other)];
		if (looser.kind === 'refused') return looser;
		if (tighter.kind === 'refused') return tighter;
		return {kind: 'value', value: {...sheet, clawTurnsLeft: [looser.value, tighter.value]}, entered: typed};
	},
};

function readLeft(typed: string): Entry<number> {
	return readQuantity(typed, {
		what: words.labels.travel,
		units: {'': 1, turn: 1, turns: 1},
		ways: {looser: 1, tighter: 1},
		range: [clawTurnsLeft.low, clawTurnsLeft.high],
		show: value => formatTrimmed(value, 2),
		example: String(clawTurnsLeft.example),
	});
}

function refused(typed: string): Entry<never> {
	return {kind: 'refused', code: 'not-understood', said: words.notTravel(typed)};
}
