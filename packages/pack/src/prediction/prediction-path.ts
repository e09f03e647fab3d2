/** Where the numbers of a prediction are in a pack. */
export const PREDICTION_PATH = 'prediction/prediction.json';
