using System.Globalization;
using Spurless.Circuits.TwoPorts;
using Spurless.Files;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;
using Spurless.Sites.Chains;
using Spurless.Sites.Documents;
using Spurless.Sites.Sources;

namespace Spurless.Sites.Surveys;

/// <summary>
/// What lies between the antenna connector and the instrument, part by part from the antenna: cable, pad, filter, preamplifier, each with a
/// figure, figures over frequency, or a file; and the antenna's factor where the instrument read field strength.
/// </summary>
public sealed class SurveyChain
{
    private static readonly (string Kind, double Sign)[] Kinds =
        [("antenna factor", 1), ("cable", -1), ("pad", -1), ("filter", -1), ("preamplifier", 1), ("gain", 1)];

    private readonly IReadOnlyList<Part> _parts;

    private SurveyChain(IReadOnlyList<Part> parts) => _parts = parts;

    /// <summary>Nothing between.</summary>
    public static SurveyChain None { get; } = new([]);

    /// <summary>Whether nothing is known to lie between.</summary>
    public bool IsEmpty => _parts.Count == 0;

    /// <summary>Whether the antenna's factor is given.</summary>
    public bool HasAntennaFactor => _parts.Any(static p => p.IsFactor);

    /// <summary>A chain of one gain at some frequencies, linear between them.</summary>
    /// <param name="gain">The points; none for no chain.</param>
    public static SurveyChain Of(IReadOnlyList<DecibelsAt> gain)
    {
        ArgumentNullException.ThrowIfNull(gain);
        return gain.Count == 0
            ? None
            : new SurveyChain([PartOf("gain", 1, [.. gain.Select(static g => ((double)g.Frequency.Hertz, g.Value.Value))])]);
    }

    /// <summary>Both, one behind the other.</summary>
    public SurveyChain With(SurveyChain other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return new SurveyChain([.. _parts, .. other._parts]);
    }

    /// <summary>Gain from the antenna connector to the instrument in dB at a frequency in hertz.</summary>
    public double GainDb(double hertz) => _parts.Where(static p => !p.IsFactor).Sum(p => p.GainDb(hertz));

    /// <summary>The antenna's factor in dB per metre at a frequency in hertz; 0 where none is given.</summary>
    public double AntennaFactorDb(double hertz) => _parts.Where(static p => p.IsFactor).Sum(p => p.GainDb(hertz));

    /// <summary>Parts whose figures end within a band: beyond them the last one is held.</summary>
    /// <param name="fromHz">The band's lower edge.</param>
    /// <param name="toHz">Its upper edge.</param>
    public IEnumerable<string> Short(double fromHz, double toHz) =>
        _parts.Where(p => fromHz < p.FromHz || toHz > p.ToHz).Select(static p => p.Name).Distinct(StringComparer.Ordinal);

    /// <summary>Reads a chain: parts with <c>;</c> between them.</summary>
    /// <param name="text">
    /// Like <c>cable 3 dB at 100 MHz, 5 dB at 400 MHz; pad 10 dB; filter band.s2p; preamplifier gain.csv; antenna factor antenna.csv</c>.
    /// </param>
    /// <param name="files">Reads the files that it names.</param>
    /// <param name="diagnostics">Takes what is wrong.</param>
    /// <returns>The chain, or null.</returns>
    public static SurveyChain? Read(string text, ISiteFiles files, DiagnosticBag diagnostics)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(files);
        ArgumentNullException.ThrowIfNull(diagnostics);
        List<Part> parts = [];
        bool good = true;
        foreach (string piece in text.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            (string? kind, double sign) = Kinds.FirstOrDefault(
                k => piece.StartsWith(k.Kind + " ", StringComparison.OrdinalIgnoreCase));
            if (kind is null)
            {
                diagnostics.Error(
                    "--chain",
                    0,
                    0,
                    $"'{Quote.Short(piece)}' is no part of a chain",
                    "write one of cable, pad, filter, preamplifier, antenna factor, and its dB, its dB over frequency, or a file: "
                        + "\"cable 3 dB; pad 10 dB\"");
                good = false;
                continue;
            }

            Part? part = One(kind, sign, piece[kind.Length..].Trim(), files, diagnostics);
            good &= part is not null;
            if (part is not null)
            {
                parts.Add(part);
            }
        }

        return good ? new SurveyChain(parts) : null;
    }

    private static Part? One(string kind, double sign, string value, ISiteFiles files, DiagnosticBag diagnostics)
    {
        if (files.Exists(value))
        {
            return value.EndsWith(".csv", StringComparison.OrdinalIgnoreCase)
                ? Table(kind, sign, value, files, diagnostics)
                : kind == "antenna factor" ? NotAFactor(value, diagnostics) : Network(kind, value, files, diagnostics);
        }

        if (Decibels.TryParse(value, out Decibels one, out string problem))
        {
            return Checked(PartOf(kind, sign, [(1, one.Value)]), "--chain", [(1, one.Value)], diagnostics);
        }

        List<(double Hertz, double Db)> points = [];
        foreach (string part in value.Split(','))
        {
            if (!DecibelsAt.TryParse(part, out DecibelsAt point, out string unread))
            {
                bool file = value.Contains('.', StringComparison.Ordinal) && !value.Contains(" at ", StringComparison.Ordinal)
                    && !value.Contains("dB", StringComparison.Ordinal);
                Refusal refusal = file
                    ? new Refusal($"there is no file '{Quote.Short(value)}'", "check the name, relative to the folder you are in")
                    : Refusal.OfParser(value.Contains(" at ", StringComparison.Ordinal) ? unread : problem, "write it like 3 dB");
                diagnostics.Error("--chain", 0, 0, $"{kind}: {refusal.What}", refusal.Remedy);
                return null;
            }

            points.Add((point.Frequency.Hertz, point.Value.Value));
        }

        return Checked(PartOf(kind, sign, points), "--chain", points, diagnostics);
    }

    /// <summary>A loss below nothing is a sign that was written by habit: it is not taken for a gain.</summary>
    private static Part? Checked(Part part, string file, IReadOnlyList<(double Hertz, double Db)> points, DiagnosticBag diagnostics)
    {
        if (!part.IsLoss || points.All(static p => p.Db >= 0))
        {
            return part;
        }

        diagnostics.Error(
            file, 0, 0, $"{part.Name}: a loss below 0 dB", "write what it takes away as a plain figure, like 3 dB");
        return null;
    }

    private static Part? NotAFactor(string file, DiagnosticBag diagnostics)
    {
        diagnostics.Error(
            file, 0, 0, "an antenna factor is no network", "give a table with the heads frequency_hz,db, in dB per metre");
        return null;
    }

    private static Part? Network(string kind, string file, ISiteFiles files, DiagnosticBag diagnostics)
    {
        DiagnosticBag own = new();
        Network? network = SiteLoader.LoadNetwork(new FileReference(file, "--chain", default), files, [145e6], own, []);
        diagnostics.AddRange(own.InOrder());
        if (network is null || own.HasErrors)
        {
            return null;
        }

        Filter filter = new(network.Name, network.TwoPort, IsFilter: true);
        ITwoPort port = network.TwoPort;
        return new Part(
            $"{kind} {file}",
            false,
            port.LowestHz,
            port.HighestHz,
            f => Math.Max(-400, 20 * Math.Log10(filter.At(Math.Clamp(f, port.LowestHz, port.HighestHz)).S21.Magnitude)));
    }

    private static Part? Table(string kind, double sign, string file, ISiteFiles files, DiagnosticBag diagnostics)
    {
        string name = files.NameOf(file);
        using StreamReader reader = new(new MemoryStream(files.Read(file) ?? []));
        List<(double Hertz, double Db)> points = [];
        int line = 0;
        bool headed = false;
        while (reader.ReadLine() is { } text)
        {
            line++;
            if (text.Length == 0 || text[0] == '#')
            {
                continue;
            }

            string[] cells = [.. text.Split(',').Select(static c => c.Trim())];
            if (!headed)
            {
                headed = true;
                if (cells is not ["frequency_hz", "db"])
                {
                    diagnostics.Error(name, line, 1, "the heads are not frequency_hz,db", "write them over the two columns");
                    return null;
                }
            }
            else if (cells.Length == 2 && Number(cells[0], out double hertz) && hertz > 0 && Number(cells[1], out double db))
            {
                points.Add((hertz, db));
            }
            else
            {
                diagnostics.Error(
                    name, line, 1, $"'{Quote.Short(text)}' is not a frequency and dB", "write plain numbers, like 145000000,3.2");
                return null;
            }
        }

        if (points.Count == 0)
        {
            diagnostics.Error(name, 0, 0, "the table has no rows", "write one row a frequency under the heads frequency_hz,db");
            return null;
        }

        return Checked(
            PartOf(kind, sign, points) with { Name = $"{kind} {file}" }, name, points, diagnostics);
    }

    private static bool Number(string text, out double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    private static Part PartOf(string kind, double sign, IReadOnlyList<(double Hertz, double Db)> points)
    {
        (double Hertz, double Db)[] rising = [.. points.OrderBy(static p => p.Hertz)];
        bool one = rising.Length == 1;
        return new Part(
            kind,
            kind == "antenna factor",
            one ? 0 : rising[0].Hertz,
            one ? double.PositiveInfinity : rising[^1].Hertz,
            f => sign * Between(rising, f))
        { IsLoss = sign < 0 };
    }

    /// <summary>Linear between the points, held beyond them.</summary>
    private static double Between((double Hertz, double Db)[] points, double hertz)
    {
        for (int i = 1; i < points.Length; i++)
        {
            (double low, double high) = (points[i - 1].Hertz, points[i].Hertz);
            if (hertz >= low && hertz <= high && high > low)
            {
                double share = (hertz - low) / (high - low);
                return ((1 - share) * points[i - 1].Db) + (share * points[i].Db);
            }
        }

        return hertz < points[0].Hertz ? points[0].Db : points[^1].Db;
    }

    private sealed record Part(string Name, bool IsFactor, double FromHz, double ToHz, Func<double, double> GainDb)
    {
        /// <summary>Whether it is stated by what it takes away.</summary>
        public bool IsLoss { get; init; }
    }
}
