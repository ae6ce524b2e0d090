import {isWork} from '../../session/deed-nature.ts';
import {formatTypedLength} from '../../units/length.ts';
import {mapEntry} from '../common/map-entry.ts';
import {readSpringLengths, springLengthsExample, springTurnsExample} from '../common/spring-lengths-entry.ts';
import type {Field} from './field.ts';
import {words} from './words.ts';

/** How far the claw springs stand stretched as the guitar comes in, if somebody measured it. */
export const springLengths: Field = {
	id: 'spring-lengths',
	label: words.labels.springLengths,
	shown: ({springLengthsMm, units}) => {
		if (springLengthsMm === undefined) return words.notMeasured;
		const [now, closed] = springLengthsMm;
		return words.springLengths(formatTypedLength(now, units).split(' ')[0]!, formatTypedLength(closed, units));
	},
	how: ({units}) => words.hows.springLengths(springLengthsExample(units), springTurnsExample(units)),
	example: ({units}) => springLengthsExample(units),
	read(text, sheet) {
		const typed = text.trim();
		const {springLengthsMm: _, ...rest} = sheet;
		if (typed.toLowerCase() === words.notMeasured) return {kind: 'value', value: rest, entered: typed};
		return mapEntry(readSpringLengths(text, sheet.units), springLengthsMm => ({...sheet, springLengthsMm}));
	},
	cautions: [words.springsLoaded],
	// What a hand has turned since has moved the springs; a slip of the pen may be put right.
	tooLate({story, sheet}, filled) {
		const isNew = filled.springLengthsMm !== undefined && sheet.springLengthsMm === undefined;
		return isNew && story.some(isWork) ? words.springsMoved : undefined;
	},
};
