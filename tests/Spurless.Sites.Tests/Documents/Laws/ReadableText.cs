using System.Text.RegularExpressions;
using Spurless.Files.Diagnostics;
using Spurless.Sites.Documents;
using Spurless.Sites.Documents.Bypasses;
using Spurless.Sites.Documents.Circuits;
using Spurless.Sites.Documents.Receivers;
using Spurless.Sites.Documents.Requirements;

namespace Spurless.Sites.Tests.Documents.Laws;

/// <summary>A place in a text where a key and its value stand.</summary>
/// <param name="Key">The key.</param>
/// <param name="KeyAt">Index of its first character.</param>
/// <param name="Value">The value as written.</param>
/// <param name="ValueAt">Index of its first character.</param>
internal sealed record KeyPlace(string Key, int KeyAt, string Value, int ValueAt);

/// <summary>
/// A text that reads without an error, with the reader of its kind and where its keys stand: found by a pattern over the text, which
/// knows nothing of the reader.
/// </summary>
internal sealed partial record ReadableText(string Kind, string Text, Func<string, IReadOnlyList<Diagnostic>> Read)
{
    /// <summary>One of each format that people write by hand, with nearly every key.</summary>
    public static IReadOnlyList<ReadableText> All { get; } =
    [
        new("site", WithoutComments(TestData.Read("site", "example.site.yaml")),
            static text => SiteReader.Read(text, "f", StubFiles.OfExample).Diagnostics),
        new("circuit", WithoutComments(CircuitTemplate.Text), static text => Bag(bag => CircuitReader.Read(
            text, "f", static (string _, out Refusal? refusal) =>
            {
                refusal = new Refusal("none", "none");
                return null;
            }, bag))),
        new("bypass", WithoutComments(BypassTemplate.Text), static text => Bag(bag => BypassReader.Read(text, "f", new StubFiles(), bag))),
        new("requirement", WithoutComments(RequirementTemplate.Text), static text => Bag(bag => RequirementReader.Read(text, "f", bag))),
        new("receiver", WithoutComments(MeasurementTemplate.Text), static text => Bag(bag => MeasurementReader.Read(
            text, "f", new StubFiles(), bag))),
    ];

    /// <summary>Every key whose value is a plain word or number.</summary>
    public IReadOnlyList<KeyPlace> Keys =>
    [
        .. KeyAndValue().Matches(Text).Select(static m => new KeyPlace(
            m.Groups[1].Value, m.Groups[1].Index, m.Groups[2].Value.TrimEnd(), m.Groups[2].Index)),
    ];

    /// <summary>Those whose value is a number with a unit; a tolerance is no quantity, it may be a series too.</summary>
    public IReadOnlyList<KeyPlace> Quantities =>
        [.. Keys.Where(static k => k.Key != "tolerance" && NumberAndUnit().IsMatch(k.Value))];

    /// <summary>The finding's place as line and column, 1-based, counted over the text.</summary>
    public static (int Line, int Column) Place(string text, int index)
    {
        int line = text.AsSpan(0, index).Count('\n') + 1;
        return (line, index - text.LastIndexOf('\n', Math.Max(0, index - 1)));
    }

    /// <summary>The text with one stretch replaced.</summary>
    public string With(int at, int length, string instead) => Text[..at] + instead + Text[(at + length)..];

    public override string ToString() => Kind;

    private static IReadOnlyList<Diagnostic> Bag(Action<DiagnosticBag> read)
    {
        DiagnosticBag bag = new();
        read(bag);
        return bag.InOrder();
    }

    private static string WithoutComments(string text) => Comment().Replace(text, "");

    [GeneratedRegex(@"[ \t]*#[^\n]*")]
    private static partial Regex Comment();

    [GeneratedRegex(@"(?<=[{,\n-] *)([a-z][a-z_0-9]*): ([^,{}\[\]\n ][^,{}\[\]\n]*)")]
    private static partial Regex KeyAndValue();

    [GeneratedRegex(@"^-?[0-9.]+ (MHz|kHz|Hz|dB|dBm|dBd|m|km|W|%|ohm|kohm|pF|nF|nH|H|V|ms|nA)$")]
    private static partial Regex NumberAndUnit();
}
