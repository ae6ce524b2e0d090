import type {KeyAction, Task} from '../stages/stage.ts';

/** After the last step: nothing is asked any more. */
export const endTask: Task = {
	headline: 'This set-up is done.',
	why: 'All steps are behind you and everything is stored.',
	how: [
		'v shows the set-up sheet, w writes it to a file.',
		'< opens the last step again, l goes to the list of guitars and set-ups, q leaves.',
	],
	prompt: 'nothing is asked',
	progress: 1,
};

export const endKeys: readonly KeyAction[] = [
	{key: 'v', label: 'read the sheet', does: {kind: 'shell', name: 'sheet'}},
	{key: 'w', label: 'write the sheet', does: {kind: 'shell', name: 'save-sheet'}},
];
