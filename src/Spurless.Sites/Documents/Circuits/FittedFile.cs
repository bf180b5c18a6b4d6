using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using Spurless.Circuits.Parts;
using Spurless.Circuits.Solving;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;
using Spurless.Files.Yaml.Editing;
using Spurless.Fit;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents.Circuits;

/// <summary>
/// Writes found values into the circuit file they were asked in: comments, order and everything else stay, each value gets its 95 %
/// interval as a comment beside it. A capacitor that states no series inductance gets the one found with it. A coil by geometry becomes
/// an inductor, with the self-capacitance that its geometry gave.
/// </summary>
public static class FittedFile
{
    private const int Digits = 6;

    /// <summary>Edits the file.</summary>
    /// <param name="text">The circuit file as it was read.</param>
    /// <param name="result">What was found.</param>
    /// <param name="edited">The new text.</param>
    /// <param name="refusal">Why not.</param>
    /// <param name="parts">Names of the parts whose values are taken; null for all.</param>
    /// <param name="keepCoils">Whether a coil by geometry keeps it, its found inductance in a comment beside it.</param>
    /// <param name="estimates">Whether a value that the sweep does not tell is written as the estimate that it is, with <c>about</c>, so
    /// that nobody takes it for known.</param>
    public static bool TryWrite(
        string text,
        FitResult result,
        [NotNullWhen(true)] out string? edited,
        [NotNullWhen(false)] out Refusal? refusal,
        IReadOnlySet<string>? parts = null,
        bool keepCoils = false,
        bool estimates = false)
    {
        ArgumentNullException.ThrowIfNull(result);
        edited = null;
        string? problem = null;
        string now = text;
        IEnumerable<(string Part, YamlPath Path, string? Key, string? What)> edits = result.Values
            .Where(v => parts is null || parts.Contains(v.Part))
            .SelectMany(v => Edits(result, v, keepCoils, estimates).Select(e => (v.Part, e.Path, e.Key, e.What)))
            .Concat(result.Leads.Where(l => parts is null || parts.Contains(l.Capacitor)).Select(static l => (
                l.Capacitor,
                YamlPath.Root.Key("parts").Key(l.Capacitor),
                (string?)"esl",
                (string?)FitNumbers.Text(l.ValueH, CircuitQuantity.InductanceH, Digits))));
        foreach ((string name, YamlPath path, string? key, string? what) in edits)
        {
            bool done = (key, what) switch
            {
                ("coil", { } w) => Replace(now, path, w, out string? next) && Take(next),
                ({ } k, { } w) when Has(now, path.Key(k)) =>
                    YamlEditor.TrySet(now, path.Key(k), w, out string? next, out problem) && Take(next),
                ({ } k, { } w) => YamlEditor.TryInsertKey(now, path, k, YamlValue.Of(w), out string? next, out problem) && Take(next),
                ({ } k, null) =>
                    !Has(now, path.Key(k)) || (YamlEditor.TryRemove(now, path.Key(k), out string? next, out problem) && Take(next)),
                (null, { } w) => YamlEditor.TrySet(now, path, w, out string? next, out problem) && Take(next),
                _ => true,
            };
            if (!done)
            {
                YamlEditor.TrySet(now, path, "", out _, out problem);
                refusal = Refusal.OfParser(
                    $"{name} cannot be written: {problem ?? "the file has another form than expected; write the value by hand"}",
                    "write the value by hand");
                return false;
            }

            bool Take(string? next)
            {
                now = next ?? now;
                return true;
            }
        }

        foreach (
            IGrouping<string, FittedValue> part in result.Values
                .Where(v => parts is null || parts.Contains(v.Part))
                .GroupBy(static v => v.Part))
        {
            now = Comment(now, part.Key, (keepCoils ? Beside(result, part) : "") + "95 %: " + string.Join("; ", part.Select(Interval)));
        }

        edited = now;
        refusal = null;
        return true;
    }

    // A coil that keeps its geometry has what was found of it in words.
    private static string Beside(FitResult result, IGrouping<string, FittedValue> part) =>
        result.Traced.Parts.First(p => p.Name == part.Key) is Coil
            && part.FirstOrDefault(static v => v.Quantity == CircuitQuantity.InductanceH) is { } henries
            ? $"found {FitNumbers.Text(henries.Value, henries.Quantity)}; "
            : "";

    private static string Interval(FittedValue v)
    {
        string name = v.Quantity == CircuitQuantity.Q ? "Q " : "";
        string words = $"{name}{FitNumbers.Text(v.Low, v.Quantity)} to {FitNumbers.Text(v.High, v.Quantity)}";
        return v.Identifiable ? words : words + ", not known from this sweep";
    }

    // What has to be changed for one value: a text set at a path, a key added to the mapping there, or taken away from it.
    private static IEnumerable<(YamlPath Path, string? Key, string? What)> Edits(
        FitResult result, FittedValue value, bool keepCoils, bool estimates)
    {
        YamlPath part = YamlPath.Root.Key("parts").Key(value.Part);
        Part traced = result.Traced.Parts.First(p => p.Name == value.Part), fitted = result.Fitted.Parts.First(p => p.Name == value.Part);
        string words = FitNumbers.Text(value.Value, value.Quantity, Digits);
        if (value.Quantity == CircuitQuantity.Q)
        {
            double at = (fitted switch { Inductor l => l.Loss, Capacitor c => c.Loss, _ => null })?.QFrequencyHz ?? 0;
            string q = string.Create(CultureInfo.InvariantCulture, $"{words} at {MegahertzText.Of(at, 0, 6)} MHz");
            yield return traced is Coil { Loss: null } ? (part, "q", q) : (part.Key("q"), null, q);
            yield break;
        }

        switch (traced)
        {
            case Coil when keepCoils:
                yield break;
            case Coil coil:
                yield return (part, "coil", words);
                if (coil.SelfCapacitanceF is null)
                {
                    yield return (
                        part,
                        "self_capacitance",
                        FitNumbers.Text(((Inductor)fitted).SelfCapacitanceF, CircuitQuantity.CapacitanceF, Digits));
                }

                break;
            case Inductor:
                yield return (part.Key("inductor"), null, words);
                break;
            case Capacitor:
                yield return (part.Key("capacitor"), null, words);
                break;
            case Resistor:
                yield return (part.Key("resistor"), null, words);
                break;
            case Coupling:
                yield return (part.Key("coupling"), null, words);
                break;
            default:
                yield return (part.Key("line").Key("length"), null, words);
                break;
        }

        yield return (part, "range", null);
        yield return (part, "about", estimates && !value.Identifiable ? About(value) : null);
    }

    // One sigma of it, from its 95 % interval, as a share; at least 1 %.
    private static string About(FittedValue value) => string.Create(
        CultureInfo.InvariantCulture,
        $"{Math.Clamp(Math.Ceiling(100 * (value.High - value.Low) / (2 * 1.96) / Math.Abs(value.Value)), 1, 100):0} %");

    // Puts an inductor in the place of a coil; where the coil stands over several lines, the inductor comes last.
    private static bool Replace(string text, YamlPath part, string henries, out string? edited)
    {
        edited = null;
        if (Find(text, part) is YamlMapping mapping && mapping.Find("coil") is { } entry)
        {
            (int start, int end) = (entry.Key.Start.Index, entry.Value.End.Index);
            string spliced = string.Concat(text.AsSpan(0, start), $"inductor: {henries}", text.AsSpan(end));
            if (!text.AsSpan(start, end - start).Contains('\n')
                && Find(spliced, part) is YamlMapping now
                && now.Find("coil") is null
                && now.Value("inductor") is YamlScalar { } found
                && found.Text == henries)
            {
                edited = spliced;
                return true;
            }
        }

        return YamlEditor.TryRemove(text, part.Key("coil"), out string? without, out _)
            && YamlEditor.TryInsertKey(without, part, "inductor", YamlValue.Of(henries), out edited, out _);
    }

    private static bool Has(string text, YamlPath path) => Find(text, path) is not null;

    private static YamlNode? Find(string text, YamlPath path)
    {
        YamlNode? at = YamlReader.Read(text, "", new DiagnosticBag());
        foreach (object step in path.Steps)
        {
            at = at is YamlMapping m && step is string key ? m.Value(key) : null;
        }

        return at;
    }

    // A comment at the end of the line in which the part begins; above it, where that line cannot take one.
    private static string Comment(string text, string part, string words)
    {
        if (YamlReader.Read(text, "", new DiagnosticBag())?.Value("parts") is not YamlMapping parts || parts.Find(part) is not { } entry)
        {
            return text;
        }

        int start = text.LastIndexOf('\n', Math.Max(0, entry.Key.Start.Index - 1)) + 1, end = text.IndexOf('\n', entry.Key.Start.Index);
        end = end < 0 ? text.Length : end;
        end = end > start && text[end - 1] == '\r' ? end - 1 : end;
        string beside = text.Insert(end, "   # " + words);
        DiagnosticBag findings = new();
        if (Same(YamlReader.Read(beside, "", findings), text) && !findings.HasErrors)
        {
            return beside;
        }

        string indent = new(' ', Math.Max(0, entry.Key.Start.Column - 1));
        string above = text.Insert(start, $"{indent}# {part}, {words}\n");
        return Same(YamlReader.Read(above, "", findings), text) ? above : text;
    }

    private static bool Same(YamlMapping? a, string text) =>
        a is not null && YamlReader.Read(text, "", new DiagnosticBag()) is { } b && Printed(a) == Printed(b);

    private static string Printed(YamlNode node) => node switch
    {
        YamlScalar s => "'" + s.Text + "'",
        YamlSequence q => "[" + string.Join(",", q.Items.Select(Printed)) + "]",
        YamlMapping m => "{" + string.Join(",", m.Entries.Select(static e => e.Key.Text + ":" + Printed(e.Value))) + "}",
        _ => "",
    };
}
