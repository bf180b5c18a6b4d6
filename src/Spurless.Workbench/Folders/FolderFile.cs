using Spurless.Sites.Sources;

namespace Spurless.Workbench.Folders;

/// <summary>A file of an open folder that the program can read.</summary>
/// <param name="Name">Name within the folder, with <c>/</c> between folders.</param>
/// <param name="Kind">What it is, by its name.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="ChangedAt">When it was last written.</param>
public sealed record FolderFile(string Name, FileKind Kind, long Bytes, DateTimeOffset ChangedAt);
