namespace Spurless.Files.Yaml;

/// <summary>A place in a text.</summary>
/// <param name="Line">Line, from 1.</param>
/// <param name="Column">Column in characters (Unicode code points), from 1.</param>
/// <param name="Index">Index into the text in UTF-16 units, from 0, a byte-order mark not counted.</param>
public readonly record struct YamlPosition(int Line, int Column, int Index);
