import type {Task} from '../stages/stage.ts';

/** After the last step: nothing is asked any more. */
export const endTask: Task = {
	headline: 'This set-up is done.',
	why: 'All steps are behind you and everything is stored.',
	how: ['< opens the last step again. l goes to the list of guitars and set-ups. q leaves.'],
	prompt: 'nothing is asked',
	progress: 1,
};
