namespace Spurless.Sites.Sources;

/// <summary>A file that went into a result.</summary>
/// <param name="Name">Its name as the user wrote it.</param>
/// <param name="Sha256">Its SHA-256 in lower-case hexadecimal.</param>
public sealed record InputFile(string Name, string Sha256);
