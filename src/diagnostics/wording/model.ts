/** Sentences about models that were drawn with another library. */
export const modelWording = {
  'model-path-unknown': (d: { path: string; type: string }) =>
    `path ${d.path} of the model is of type ${d.type} or holds something that isn't a number; lines, arcs and circles can be read: turn other curves into arcs first`,
};
