using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Documents;

/// <summary>A command in a document, with the output the document shows.</summary>
/// <param name="File">The document.</param>
/// <param name="Line">Its line, from 1.</param>
/// <param name="Command">What is typed after <c>./spurless</c>.</param>
/// <param name="Shown">The output as shown; a line <c>...</c> stands for any lines.</param>
internal sealed record ConsoleExample(string File, int Line, string Command, IReadOnlyList<string> Shown);

/// <summary>
/// Finds the examples of a document: fenced blocks marked <c>console</c>, in which a line <c>$ ./spurless ...</c> is typed and what follows
/// is shown.
/// </summary>
internal static class ConsoleBlocks
{
    /// <summary>All examples of the README and the pages under docs/.</summary>
    public static IReadOnlyList<ConsoleExample> All { get; } =
    [
        .. Of(Repository.PathOf("README.md")),
        .. Directory
            .EnumerateFiles(Repository.PathOf("docs"), "*.md", SearchOption.AllDirectories)
            .Order(StringComparer.Ordinal)
            .SelectMany(Of),
    ];

    private static IEnumerable<ConsoleExample> Of(string path)
    {
        string name = Path.GetRelativePath(Repository.Root, path);
        bool inside = false;
        ConsoleExample? current = null;
        List<string> shown = [];
        int number = 0;
        foreach (string line in File.ReadLines(path))
        {
            number++;
            bool fence = line.StartsWith("```", StringComparison.Ordinal);
            bool typed = inside && line.StartsWith("$ ", StringComparison.Ordinal);
            if (fence || typed)
            {
                if (current is not null)
                {
                    yield return current with { Shown = [.. shown] };
                }

                current = null;
                shown.Clear();
                inside = fence ? !inside && line.TrimEnd() == "```console" : inside;
                const string Prefix = "$ ./spurless ";
                if (typed && line.StartsWith(Prefix, StringComparison.Ordinal))
                {
                    current = new ConsoleExample(name, number, line[Prefix.Length..], []);
                }
            }
            else if (current is not null)
            {
                shown.Add(line);
            }
        }
    }
}
