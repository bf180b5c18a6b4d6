using Spurless.Files.Diagnostics;

namespace Spurless.Sites.Tests.Documents.Laws;

/// <summary>
/// What every reader of a hand-written file owes its user (docs/formats; CONTRIBUTING): what is wrong is said where it stands, all at once,
/// with something that works to write instead. Each law is tried at every place of a good text of each format.
/// </summary>
public sealed class ReaderLawsTests
{
    public static TheoryData<string> Kinds => [.. ReadableText.All.Select(static t => t.Kind)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void The_text_reads_and_has_keys_to_try(string kind)
    {
        ReadableText text = Of(kind);
        Assert.Equal("", string.Join('\n', text.Read(text.Text)));
        Assert.True(text.Quantities.Count >= 5, $"{text.Quantities.Count} quantities in {kind}");
    }

    /// <summary>
    /// A number without its unit: one finding, at the number, and writing what it says makes the file read again.
    /// </summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_missing_unit_is_found_where_it_stands_and_its_remedy_reads(string kind)
    {
        ReadableText text = Of(kind);
        foreach (KeyPlace place in text.Quantities)
        {
            string bare = place.Value[..place.Value.IndexOf(' ', StringComparison.Ordinal)];
            string broken = text.With(place.ValueAt, place.Value.Length, bare);
            Diagnostic only = Only(text, broken, place.Key);
            (int, int) at = ReadableText.Place(broken, place.ValueAt);
            Assert.True(at == (only.Line, only.Column), $"{place.Key}: {only} is not at {at}");
            Assert.Equal($"'{bare}' has no unit", only.What);
            Assert.StartsWith("write ", only.Remedy, StringComparison.Ordinal);
            string mended = text.With(place.ValueAt, place.Value.Length, only.Remedy["write ".Length..]);
            Assert.Equal($"{place.Key}: ", $"{place.Key}: " + string.Join('\n', text.Read(mended)));
        }
    }

    /// <summary>A unit of another dimension is never taken for a number of this one.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_unit_of_another_dimension_is_refused_where_it_stands(string kind)
    {
        ReadableText text = Of(kind);
        foreach (KeyPlace place in text.Quantities)
        {
            string number = place.Value[..place.Value.IndexOf(' ', StringComparison.Ordinal)];
            string broken = text.With(place.ValueAt, place.Value.Length, number + " furlong");
            Diagnostic only = Only(text, broken, place.Key);
            Assert.Equal(ReadableText.Place(broken, place.ValueAt), (only.Line, only.Column));
            Assert.Contains("furlong", only.What, StringComparison.Ordinal);
            Assert.NotEmpty(only.Remedy);
        }
    }

    /// <summary>What no number can be: one finding at the value, whatever stands there.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void What_is_no_number_is_refused_where_it_stands(string kind)
    {
        ReadableText text = Of(kind);
        foreach (KeyPlace place in text.Quantities)
        {
            string unit = place.Value[place.Value.IndexOf(' ', StringComparison.Ordinal)..];
            foreach (string number in (string[])["NaN", "1e999", "1,5e", "--3", "1.2.3", "0x10"])
            {
                // A comma would end the value inside brackets.
                string broken = text.With(place.ValueAt, place.Value.Length, $"\"{number}{unit}\"");
                IReadOnlyList<Diagnostic> findings = text.Read(broken);
                Assert.True(findings.Count > 0, $"{place.Key}: {number}{unit} was read");
                Assert.Contains(findings, f => (f.Line, f.Column) == ReadableText.Place(broken, place.ValueAt));
            }
        }
    }

    /// <summary>A key with a letter too many names the key that was meant, at the key.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_misspelt_key_is_found_where_it_stands_and_the_right_one_named(string kind)
    {
        ReadableText text = Of(kind);
        foreach (KeyPlace place in text.Keys.Where(static k => k.Key.Length > 3 && k.Key != "waterworks base"))
        {
            string wrong = place.Key + place.Key[^1];
            string broken = text.With(place.KeyAt, place.Key.Length, wrong);
            (int, int) at = ReadableText.Place(broken, place.KeyAt);
            IReadOnlyList<Diagnostic> findings = text.Read(broken);
            Assert.True(
                findings.Any(f => (f.Line, f.Column) == at && f.What.Contains($"'{wrong}'", StringComparison.Ordinal)
                    && f.Remedy.Contains($"'{place.Key}'", StringComparison.Ordinal)),
                $"nothing is said at {at} of '{wrong}': {string.Join('\n', findings)}");
        }
    }

    /// <summary>A key that stands twice is refused at the second, naming the line of the first.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_key_that_stands_twice_is_refused_at_the_second(string kind)
    {
        ReadableText text = Of(kind);
        foreach (KeyPlace place in text.Keys)
        {
            // Inside braces after a comma; elsewhere on a line of its own with the same indentation.
            int start = text.Text.LastIndexOf('\n', place.KeyAt) + 1;
            string before = text.Text[start..place.KeyAt];
            bool flow = before.Contains('{', StringComparison.Ordinal) || text.Text[..place.KeyAt].TrimEnd().EndsWith(',');
            string pair = $"{place.Key}: {place.Value}";
            string between = flow ? ", " : "\n" + new string(' ', before.Length);
            int end = place.ValueAt + place.Value.Length;
            string broken = text.Text[..end] + between + pair + text.Text[end..];
            (int, int) at = ReadableText.Place(broken, end + between.Length);
            Diagnostic found = Assert.Single(text.Read(broken), f => (f.Line, f.Column) == at);
            int first = ReadableText.Place(broken, place.KeyAt).Line;
            Assert.Equal(
                FormattableString.Invariant($"the key '{place.Key}' stands here a second time (first in line {first})"), found.What);
        }
    }

    /// <summary>As many findings as mistakes, each at its own, in the order of the file.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void All_mistakes_are_said_at_once_in_the_order_of_the_file(string kind)
    {
        ReadableText text = Of(kind);
        foreach (int every in (int[])[1, 2, 3])
        {
            KeyPlace[] chosen = [.. text.Quantities.Where((_, i) => i % every == 0)];
            string broken = text.Text;
            foreach (KeyPlace place in chosen.Reverse())
            {
                int unit = place.Value.IndexOf(' ', StringComparison.Ordinal);
                broken = broken[..(place.ValueAt + unit)] + broken[(place.ValueAt + place.Value.Length)..];
            }

            IReadOnlyList<Diagnostic> findings = text.Read(broken);
            Assert.Equal(chosen.Select(static k => $"'{k.Value[..k.Value.IndexOf(' ', StringComparison.Ordinal)]}' has no unit"),
                findings.Select(static f => f.What));
            Assert.Equal(findings.OrderBy(static f => (f.Line, f.Column)), findings);
        }
    }

    /// <summary>Ends of lines as another system writes them move no finding, and a file that reads still does.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public void Line_ends_of_another_system_change_nothing(string kind)
    {
        ReadableText text = Of(kind);
        Assert.Empty(text.Read(text.Text.Replace("\n", "\r\n", StringComparison.Ordinal)));
        KeyPlace place = text.Quantities[^1];
        string bare = place.Value[..place.Value.IndexOf(' ', StringComparison.Ordinal)];
        string broken = text.With(place.ValueAt, place.Value.Length, bare);
        Assert.Equal(text.Read(broken), text.Read(broken.Replace("\n", "\r\n", StringComparison.Ordinal)));
    }

    private static ReadableText Of(string kind) => ReadableText.All.Single(t => t.Kind == kind);

    private static Diagnostic Only(ReadableText text, string broken, string key)
    {
        IReadOnlyList<Diagnostic> findings = text.Read(broken);
        Assert.True(findings.Count == 1, $"{key}: {findings.Count} findings: {string.Join('\n', findings)}");
        return findings[0];
    }
}
