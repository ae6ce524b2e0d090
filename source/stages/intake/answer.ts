import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import type {InstrumentSheet} from '../../session/sheet.ts';
import {answerChecklist} from '../common/checklist.ts';
import {readClawTurns} from '../../session/entry/measures.ts';
import {answerOf} from '../common/entry-answer.ts';
import {refuseTyping} from '../common/going.ts';
import {answerPitch} from '../common/pitch-answer.ts';
import {answerPlate} from '../common/plate-answer.ts';
import type {Answer, Task} from '../stage.ts';
import {type Field, fieldOf, fieldsFor} from './fields.ts';
import {afterAsk, afterQuick, goTo, placeOf} from './place.ts';
import {springLengths} from './spring-lengths.ts';
import {lookItems} from './task.ts';
import type {TestStep} from './test-turn.ts';
import {words} from './words.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const place = placeOf(bench);
	const meant = extra?.meant ?? false;
	switch (place.kind) {
		case 'quick': {
			const next = goTo(afterQuick(place.field));
			return fill(text, fieldOf(place.field), bench, () => next, meant);
		}
		case 'ask':
			return fill(text, place.field, bench, sheet => afterField(place.field, bench, sheet), meant);
		case 'menu':
			return answerMenu(text, bench, meant);
		case 'look':
			return answerChecklist(text, lookItems, bench);
		case 'before':
			return answerPlate(text, bench, meant);
		case 'springs':
			return fill(text, springLengths, bench, () => goTo('change'), meant);
		case 'test':
			return answerTest(text, place.step, bench, meant);
		case 'change':
			return refuseTyping(text, task);
	}
}

function answerTest(text: string, step: TestStep, bench: Bench, meant: boolean): Answer {
	switch (step.kind) {
		case 'read':
			return answerPitch(text, {string: step.row.string, how: 'open'}, bench, meant);
		case 'measure':
			return answerPlate(text, bench, meant);
		case 'claw':
			return answerOf(readClawTurns(text), turns => [{type: 'ClawTurned', ...turns}], meant);
	}
}

/** `4` asks for line 4, `4 629` or `scale 629` sets it. */
function answerMenu(text: string, bench: Bench, meant: boolean): Answer {
	const asked = fieldsFor(bench.sheet);
	const [, number, name, value] = /^\s*(?:(\d{1,2})|(\p{L}[\p{L} ]*?))(?:\s*[:=]\s*|\s+|$)(.*)$/u.exec(text) ?? [];
	const field = number === undefined ? fieldNamed(name, asked) : asked[Number(number) - 1];
	if (!field) return {kind: 'refused', said: words.menu.notAField(text.trim(), asked.length)};
	if (!value?.trim()) return {kind: 'deeds', deeds: [goTo(`ask ${field.id}`)]};
	return fill(value, field, bench, sheet => afterField(field, bench, sheet), meant);
}

function fieldNamed(name: string | undefined, asked: readonly Field[]): Field | undefined {
	const typed = name?.trim().toLowerCase();
	return typed === undefined ? undefined : asked.find(({label}) => label.toLowerCase() === typed);
}

function afterField(field: Field, {sheet}: Bench, filled: InstrumentSheet): Deed {
	return goTo(afterAsk(field, filled.job === 'change' && sheet.job !== 'change'));
}

function fill(
	text: string,
	field: Field,
	bench: Bench,
	next: (filled: InstrumentSheet) => Deed,
	meant: boolean,
): Answer {
	const entry = field.read(text, bench.sheet);
	const tooLate = entry.kind === 'refused' ? undefined : field.tooLate?.(bench, entry.value);
	if (tooLate !== undefined) return {kind: 'refused', said: tooLate};
	return answerOf(entry, filled => [{type: 'SheetFilled', sheet: filled}, next(filled)], meant);
}
