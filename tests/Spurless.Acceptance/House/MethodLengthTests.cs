using System.Text.RegularExpressions;

namespace Spurless.Acceptance.House;

/// <summary>
/// A method says one thing. Aimed at are 60 lines of body; over 100 none may have without a reason, and how many are over 60 may only fall.
/// </summary>
public partial class MethodLengthTests
{
    private const int Aim = 60;
    private const int Most = 100;

    /// <summary>How many are over the aim: lower it when one is broken up.</summary>
    private const int OverAim = 58;

    /// <summary>Methods over the bound, each with its reason.</summary>
    private static readonly Dictionary<string, string> Longer = new(StringComparer.Ordinal)
    {
        ["src/Spurless.Circuits/Solving/Netlist.cs: Make"] = "a case a kind of part, none knows another",
        ["src/Spurless.Drawing/Plotting/LabelOptimiser.cs: Place"] = "one descent over state that its steps share",
    };

    [Fact]
    public void Methods_are_short_or_have_a_reason()
    {
        (string Name, int Lines)[] all = [.. Methods()];
        Assert.True(all.Length > 2_500, $"only {all.Length} methods were seen");
        string[] found =
        [
            .. all.Where(static m => m.Lines > Most && !Longer.ContainsKey(m.Name)).Select(static m => $"{m.Name}, {m.Lines} lines"),
        ];
        Assert.True(found.Length == 0, $"over {Most} lines:\n{string.Join('\n', found)}");
        Assert.DoesNotContain(Longer.Keys, k => !all.Any(m => m.Name == k && m.Lines > Most));
    }

    [Fact]
    public void Methods_over_the_aim_become_fewer()
    {
        string[] found = [.. Methods().Where(static m => m.Lines > Aim).Select(static m => $"{m.Name}, {m.Lines} lines")];
        Assert.True(found.Length <= OverAim, $"{found.Length} methods are over {Aim} lines, {OverAim} were:\n{string.Join('\n', found)}");
    }

    [Fact]
    public void The_rule_counts_the_lines_between_the_braces()
    {
        string[] lines =
        [
            "    public int One(", "        int a)", "    {", "        return a;", "    }", "    private int _x;",
            "    private static int Two(int a) => a switch", "    {", "        _ => 2,", "    };",
            "    internal override (int, string) Three(string s)", "    {", "        if (s == \"\")", "        {", "        }", "    }",
        ];
        Assert.Equal([("f: One", 1), ("f: Three", 3)], In("f", lines));
    }

    private static IEnumerable<(string Name, int Lines)> Methods() =>
        SourceText.Files(".cs").Where(static f => f.StartsWith("src/", StringComparison.Ordinal))
            .SelectMany(static f => In(f, SourceText.Lines(f)));

    private static IEnumerable<(string Name, int Lines)> In(string file, IReadOnlyList<string> lines)
    {
        for (int i = 0; i < lines.Count; i++)
        {
            if (Head().Match(lines[i]) is not { Success: true } head)
            {
                continue;
            }

            string indent = head.Groups["indent"].Value;
            int open = i;
            while (open < lines.Count && lines[open] != indent + "{" && !lines[open].EndsWith(';')
                && !lines[open].Contains("=>", StringComparison.Ordinal))
            {
                open++;
            }

            if (open == lines.Count || lines[open] != indent + "{")
            {
                continue;
            }

            int close = open;
            while (close < lines.Count - 1 && lines[close] != indent + "}")
            {
                close++;
            }

            yield return ($"{file}: {head.Groups["name"].Value}", close - open - 1);
        }
    }

    // A member with a modifier and parameters, and no type or constructor of a type.
    [GeneratedRegex(
        @"^(?<indent> +)(?:(?:public|private|internal|protected|static|async|override|unsafe|sealed|partial|virtual|readonly)\s+)+"
            + @"(?!.*\b(?:class|record|struct|delegate|enum|interface)\b)[^=;{]*?\b(?<name>\w+)(?:<[^>(]*>)?\(")]
    private static partial Regex Head();
}
