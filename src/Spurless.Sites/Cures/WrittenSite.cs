using Spurless.Sites.Documents;

namespace Spurless.Sites.Cures;

/// <summary>A site file with a way out in it.</summary>
/// <param name="Text">Its text; empty where the way was tried without it.</param>
/// <param name="Document">The site as read of it.</param>
/// <param name="Files">Files that go with it and are not there yet.</param>
internal sealed record WrittenSite(string Text, SiteDocument Document, IReadOnlyDictionary<string, string> Files);
