import type {Bench} from '../../session/bench.ts';
import {readAngle, readLength, readTailHeight} from '../../session/entry/measures.ts';
import type {Deed} from '../../session/facts.ts';
import {radiansFromDegrees} from '../../units/convert.ts';
import {formatTrimmed} from '../../units/number.ts';
import type {Answer} from '../stage.ts';
import {answerOf} from './entry-answer.ts';
import {plate as words} from './words.ts';

/** A height, an angle, two gaps with the one at the posts first, or both sides by name. */
export function answerPlate(text: string, {sheet}: Bench, meant = false): Answer {
	const measured = (tailMm: number, entered: string): readonly Deed[] => [{type: 'PlateMeasured', tailMm, entered}];
	const sides = /^\s*(treble|bass)\s(.+?)[\s,;]+(treble|bass)\s(.+)$/i.exec(text);
	if (sides) return answerSides(sides, text, sheet.units, meant);
	if (/deg|°/i.test(text)) {
		return answerOf(
			readAngle(text),
			(degrees, entered) => measured(sheet.tailArmMm * Math.sin(radiansFromDegrees(degrees)), entered),
			meant,
		);
	}
	const [, front, tail] = /^(.+?)(?:\s+\/\s+|\s*;\s*)(.+)$/.exec(text.trim()) ?? [];
	if (front === undefined || tail === undefined) return answerOf(readTailHeight(text, sheet.units), measured, meant);
	const gap = {what: 'a gap', range: [0, 40], usual: [1, 25], exampleMm: 8} as const;
	const [posts, edge] = [readLength(front, sheet.units, gap), readLength(tail, sheet.units, gap)];
	if (posts.kind === 'refused') return answerOf(posts, () => []);
	if (edge.kind === 'refused') return answerOf(edge, () => []);
	// Judged as the height that they make, so that a slip in either shows.
	const height = readTailHeight(`${formatTrimmed(edge.value - posts.value, 3)} mm${meant ? '!' : ''}`, sheet.units);
	return answerOf(height, tailMm => measured(tailMm, text.trim()), meant);
}

/** `treble 0.8 bass 0.4`: the mean is what moves with the claw, the difference is the twist. */
function answerSides(
	[, first = '', one = '', second = '', other = '']: RegExpExecArray,
	text: string,
	units: Bench['sheet']['units'],
	meant: boolean,
): Answer {
	const [firstTail, secondTail] = [readTailHeight(one, units), readTailHeight(other, units)];
	if (firstTail.kind === 'refused') return answerOf(firstTail, () => []);
	if (first.toLowerCase() === second.toLowerCase()) return {kind: 'refused', said: words.oneSideTwice(text.trim())};
	const isTrebleFirst = first.toLowerCase() === 'treble';
	return answerOf(
		// A doubt about either is a doubt about both.
		firstTail.kind === 'doubtful' && secondTail.kind === 'value' ? {...firstTail, value: secondTail.value} : secondTail,
		secondMm => {
			const [treble, bass] = isTrebleFirst ? [firstTail.value, secondMm] : [secondMm, firstTail.value];
			const tailMm = (treble + bass) / 2;
			return [{type: 'PlateMeasured', tailMm, sidesMm: {treble, bass}, entered: text.trim()}];
		},
		meant,
	);
}
