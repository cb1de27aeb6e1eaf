package features_test

// officePending lists the drawings, or NAME/way for one way to change them, of
// which not everything is read yet, with what is missing. What is right must be
// taken out.
func officePending() map[string]string {
	return map[string]string{}
}
