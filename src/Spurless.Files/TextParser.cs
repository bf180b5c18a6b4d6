namespace Spurless.Files;

/// <summary>
/// Reads a value of one kind from the text of one cell or scalar.
/// </summary>
/// <param name="text">The text as it stands in the file.</param>
/// <param name="value">The value, where the text is right.</param>
/// <param name="problem">Where it is not: <c>what was found; what to write instead</c>.</param>
/// <returns>Whether the text was right.</returns>
public delegate bool TextParser<T>(string text, out T value, out string problem);
