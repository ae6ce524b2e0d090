import {expect, test} from 'vitest';
import {choiceTask} from '../../source/stages/common/choices.ts';

test('every answer of a question is on the screen, whatever its size: the table makes room', () => {
	const choices = [
		{value: 'one', label: 'first way', note: 'costs least'},
		{value: 'two', label: 'second way'},
	] as const;
	const task = choiceTask('way', choices, 'two', {headline: 'Choose.', why: 'There are two.', progress: 0});
	expect(task.tableRests).toBe(true);
	expect(task.how).toEqual(['1 first way: costs least', '2 second way']);
	expect(task.enter?.label).toBe('second way');
});
