using System.Globalization;
using Spurless.Fuzz.Running;
using Spurless.Workbench.Folders;

namespace Spurless.Fuzz.Kills;

/// <summary>
/// The process that is killed: it saves the same file again and again, as a page does or as <c>--out</c> does, and tells the number of each
/// save when the program says that it is done.
/// </summary>
internal static class Saver
{
    /// <summary>The file that is saved.</summary>
    public const string File = "x.site.yaml";

    /// <summary>What <c>--out</c> writes in turn.</summary>
    private static readonly string[][] Outs = [["schema", "site"], ["schema", "circuit"]];

    // Long to write and quick to read, so that most of a save's time is that of writing.
    private static readonly string Rest = string.Concat(Enumerable.Range(0, 3000).Select(static i => string.Create(
        CultureInfo.InvariantCulture, $"# line {i} of what a user wrote down beside his emitters\n")));

    /// <summary>The whole text of a page's save.</summary>
    public static string Text(int number) => string.Create(
        CultureInfo.InvariantCulture,
        $"# invented\nspurless: 1\nsite: save {number}\nemitters:\n  - {{ name: e0, level: -40 dBm }}\n{Rest}");

    /// <summary>What <c>--out</c> writes by its number, as told by the program itself.</summary>
    public static async Task<byte[]> OutAsync(int number)
    {
        Screen screen = new();
        _ = await CommandFront.RunAsync(Outs[number % 2], screen, CancellationToken.None).ConfigureAwait(false);
        return System.Text.Encoding.UTF8.GetBytes(screen.OutputText);
    }

    /// <summary>Saves without end.</summary>
    /// <param name="way"><c>pages</c> or <c>out</c>.</param>
    /// <param name="folder">Where.</param>
    /// <param name="number">The number of what is there.</param>
    public static async Task<int> RunAsync(string way, string folder, int number)
    {
        using Stream to = Console.OpenStandardOutput();
        using OpenFolder open = new(folder, TimeProvider.System);
        while (way == "pages" ? Page(open, number + 1) : await OutAsync(folder, number + 1).ConfigureAwait(false) == 0)
        {
            number++;
            to.Write(System.Text.Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{number}\n")));
            to.Flush();
        }

        return 1;
    }

    /// <summary>A page's save.</summary>
    /// <returns>Whether it says that it is done.</returns>
    public static bool Page(OpenFolder folder, int number) => folder.Set(File, "site",
        string.Create(CultureInfo.InvariantCulture, $"save {number}"),
        string.Create(CultureInfo.InvariantCulture, $"save {number - 1}"), "named").Ok;

    /// <summary>A save of <c>--out</c>.</summary>
    /// <returns>The exit status.</returns>
    public static Task<int> OutAsync(string folder, int number) =>
        CommandFront.RunAsync([.. Outs[number % 2], "--out", Path.Combine(folder, File)], new Screen(), CancellationToken.None);
}
