// Package render turns a judged drawing into pictures, text, JSON and CSV. One
// scene, many forms: the PNG is drawn from a Scene that also has a text form.
//
// Nothing here judges: verdicts, findings and counts come in with the report
// and are only put into words and shapes. A number that is not known is left
// out, never written as 0.
package render
