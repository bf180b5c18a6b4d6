using System.Text.RegularExpressions;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.Wrapper;

/// <summary>
/// The script for Windows, read and not run: there is no Windows among the machines that test this. What its interpreter is known to
/// stumble over must not stand there.
/// </summary>
public partial class WindowsScriptTests
{
    private static readonly string[] Lines = File.ReadAllLines(Repository.PathOf("spurless.cmd"));

    /// <summary>A variable in a block is put in before the block is read: a root such as Program Files (x86) would end it.</summary>
    [Fact]
    public void No_block_goes_over_lines_and_no_variable_stands_in_parentheses_without_quotes()
    {
        Assert.DoesNotContain(Lines, static l => !l.StartsWith("rem ", StringComparison.Ordinal) && l.TrimEnd().EndsWith('('));
        foreach (string line in Lines.Where(static l => l.Contains('(', StringComparison.Ordinal) && !Tells().IsMatch(l)))
        {
            Assert.DoesNotMatch("%[a-z]+%", Quoted().Replace(line, "\"\""));
        }
    }

    [Fact]
    public void Tools_are_named_by_their_place()
    {
        foreach (string line in Lines.Where(static l => !l.StartsWith("rem ", StringComparison.Ordinal) && !Tells().IsMatch(l)))
        {
            Assert.DoesNotMatch(@"(?<!%system%\\)\b(robocopy|findstr|ping|where|timeout)(\.exe)?\b", line);
            Assert.DoesNotMatch("^ *dotnet ", line);
        }

        Assert.Contains("set \"NoDefaultCurrentDirectoryInExePath=1\"", Lines);
    }

    [Fact]
    public void What_is_mirrored_before_a_build_is_what_is_compared_afterwards()
    {
        string[] compared =
        [
            .. Lines.Where(static l => !l.StartsWith("rem ", StringComparison.Ordinal) && l.Contains(" /L ", StringComparison.Ordinal))
                .Select(static l => Copied(l, "mirror")),
        ];
        string[] taken =
        [
            .. Lines.Where(static l => l.Contains("robocopy.exe", StringComparison.Ordinal))
                .Where(static l => !l.Contains(" /L ", StringComparison.Ordinal))
                .Select(static l => Copied(l, "mirror.next")),
        ];
        Assert.Equal(3, taken.Length);
        Assert.Equal(taken, compared);
        Assert.Contains(taken, static t => t.Contains(@"%root%\demo", StringComparison.Ordinal));
    }

    [Fact]
    public void No_loop_is_without_end()
    {
        int wait = Array.IndexOf(Lines, ":wait");
        int again = Array.FindIndex(Lines, wait, static l => l == "goto :wait");
        Assert.Contains("set /a tries-=1", Lines[wait..again]);
        Assert.Contains("if %tries% leq 0 goto :unwritable", Lines[wait..again]);
    }

    private static string Copied(string line, string mirror) => line.Replace(" /L", "", StringComparison.Ordinal)
        .Replace($@"\{mirror}\", @"\M\", StringComparison.Ordinal).Replace($@"\{mirror}""", @"\M""", StringComparison.Ordinal);

    // Words that are only told, outside of any block.
    [GeneratedRegex("^(>&2 |>con )echo ", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Tells();

    [GeneratedRegex("\"[^\"]*\"", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Quoted();
}
