using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using System.Text.RegularExpressions;

namespace Spurless.Circuits.Touchstone;

/// <summary>Form of the matrices of a version 2 file.</summary>
internal enum MatrixForm
{
    Full,
    Lower,
    Upper,
}

/// <summary>Everything in a Touchstone file that is not data, as it is read.</summary>
internal sealed partial class TouchstoneHeader(Findings findings)
{
    private readonly Dictionary<string, int> _seen = [];
    private bool _wantsReferences;

    public TouchstoneOptions Options { get; private set; } = TouchstoneOptions.Default;

    public int OptionLine { get; private set; }

    /// <summary>Null for version 1.</summary>
    public string? Version { get; private set; }

    public int? Ports { get; private set; }

    public int PortsLine { get; private set; }

    public bool? FirstIs21 { get; private set; }

    public int? Frequencies { get; private set; }

    public int FrequenciesLine { get; private set; }

    public int? NoiseFrequencies { get; private set; }

    public int NoiseFrequenciesLine { get; private set; }

    public MatrixForm Form { get; private set; }

    public bool MixedMode { get; private set; }

    public int MixedModeLine { get; private set; }

    public ImmutableArray<Complex> References { get; private set; } = [];

    public int ReferencesLine { get; private set; }

    /// <summary>Whether a line that begins with a number still belongs to <c>[Reference]</c>.</summary>
    public bool WantsReferences => _wantsReferences && References.Length < (Ports ?? int.MaxValue);

    /// <summary>Reads an option line; only the first counts.</summary>
    public void ReadOptionLine(in SourceLine line, bool dataBegun)
    {
        _wantsReferences = false;
        int mark = line.Text.IndexOf('#', StringComparison.Ordinal);
        List<Token> words = (line with { Text = line.Text[(mark + 1)..], Column = line.Column + mark + 1 }).Tokens();
        if (OptionLine > 0)
        {
            findings.Warning(
                line.Number,
                mark + 1,
                string.Create(
                    CultureInfo.InvariantCulture, $"a second option line; the one in line {OptionLine} holds and this one is not used"),
                "leave one option line");
            return;
        }

        OptionLine = line.Number;
        if (dataBegun)
        {
            findings.Error(line.Number, mark + 1, "the option line stands behind data", "put it above the first point");
            return;
        }

        TouchstoneUnit? unit = null;
        TouchstoneParameter? parameter = null;
        TouchstoneFormat? format = null;
        ImmutableArray<Complex> resistances = [];
        for (int i = 0; i < words.Count; i++)
        {
            (string text, _, int column) = words[i];
            string word = text.ToUpperInvariant();
            switch (word)
            {
                case "HZ" or "KHZ" or "MHZ" or "GHZ":
                    Once(unit is not null, line.Number, words[i], "unit");
                    unit = word switch
                    {
                        "HZ" => TouchstoneUnit.Hz,
                        "KHZ" => TouchstoneUnit.KHz,
                        "MHZ" => TouchstoneUnit.MHz,
                        _ => TouchstoneUnit.GHz,
                    };
                    break;
                case "S" or "Y" or "Z" or "H" or "G":
                    Once(parameter is not null, line.Number, words[i], "kind of parameter");
                    parameter = Enum.Parse<TouchstoneParameter>(word);
                    break;
                case "MA" or "DB" or "RI":
                    Once(format is not null, line.Number, words[i], "format");
                    format = Enum.Parse<TouchstoneFormat>(word);
                    break;
                case "R":
                    Once(!resistances.IsEmpty, line.Number, words[i], "reference");
                    resistances = Impedances(line.Number, words, i + 1);
                    if (resistances.IsEmpty)
                    {
                        findings.Error(line.Number, column, "nothing that is a resistance stands after R", "write R 50");
                    }

                    i += resistances.Length;
                    break;
                default:
                    findings.Error(
                        line.Number,
                        column,
                        $"{TouchstoneLines.Quote(text)} stands in the option line",
                        "an option line is # with a unit (Hz kHz MHz GHz), S Y Z H or G, MA DB or RI, "
                            + "and R with ohms, as in # MHz S RI R 50");
                    break;
            }
        }

        Options = new TouchstoneOptions(
            unit ?? TouchstoneUnit.GHz,
            parameter ?? TouchstoneParameter.S,
            format ?? TouchstoneFormat.MA,
            resistances.IsEmpty ? TouchstoneOptions.Default.Resistances : resistances);
    }

    /// <summary>
    /// Reads a keyword line of version 2 up to <c>[Network Data]</c>; returns the keyword in lower case, or null where it has no shape.
    /// </summary>
    public string? ReadKeyword(in SourceLine line)
    {
        _wantsReferences = false;
        Match match = Keyword().Match(line.Text);
        int column = line.Text.IndexOf('[', StringComparison.Ordinal) + 1;
        if (!match.Success)
        {
            findings.Error(
                line.Number,
                column,
                $"{TouchstoneLines.Quote(line.Text.Trim())} opens a bracket and does not close it",
                "write [Keyword] value");
            return null;
        }

        string keyword = string.Join(
            ' ', match.Groups[1].Value.ToLowerInvariant().Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries));
        List<Token> words = (line with { Text = line.Text[match.Length..], Column = line.Column + match.Length }).Tokens();
        if (!_seen.TryAdd(keyword, line.Number))
        {
            findings.Error(
                line.Number,
                column,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{TouchstoneLines.Keyword(match.Groups[1].Value.Trim())} stands a second time, the first is in line {_seen[keyword]}"),
                "leave one");
            return keyword;
        }

        Take(keyword, match.Groups[1].Value.Trim(), line, column, words);
        return keyword;
    }

    // What a keyword says by the words behind it.
    private void Take(string keyword, string written, in SourceLine line, int column, List<Token> words)
    {
        int valueColumn = words.Count > 0 ? words[0].Column : column;
        string value = words.Count > 0 ? words[0].Text : "";
        switch (keyword)
        {
            case "version":
                Version = value is "2.0" or "2.1" or "2" ? (value == "2" ? "2.0" : value) : "2.0";
                if (value is not ("2.0" or "2.1" or "2"))
                {
                    findings.Error(
                        line.Number,
                        valueColumn,
                        $"version {TouchstoneLines.Quote(value)}",
                        "this program reads [Version] 2.0 and 2.1, and files without the keyword as version 1");
                }

                break;
            case "number of ports":
                Ports = Count(line.Number, valueColumn, value, "ports");
                PortsLine = line.Number;
                break;
            case "number of frequencies":
                Frequencies = Count(line.Number, valueColumn, value, "frequencies");
                FrequenciesLine = line.Number;
                break;
            case "number of noise frequencies":
                NoiseFrequencies = Count(line.Number, valueColumn, value, "noise frequencies");
                NoiseFrequenciesLine = line.Number;
                break;
            case "two-port data order" or "two-port order":
                if (value is "12_21" or "21_12")
                {
                    FirstIs21 = value == "21_12";
                }
                else
                {
                    findings.Error(
                        line.Number,
                        valueColumn,
                        $"{TouchstoneLines.Quote(value)} as the order of a two-port's data",
                        "write 12_21 (N11 N12 N21 N22) or 21_12 (N11 N21 N12 N22)");
                }

                break;
            case "matrix format":
                if (Enum.TryParse(value, true, out MatrixForm form) && char.IsAsciiLetter(value[0]))
                {
                    Form = form;
                }
                else
                {
                    findings.Error(
                        line.Number, valueColumn, $"{TouchstoneLines.Quote(value)} as the matrix format", "write Full, Lower or Upper");
                }

                break;
            case "reference":
                ReferencesLine = line.Number;
                _wantsReferences = true;
                AddReferences(line.Number, words);
                break;
            case "mixed-mode order":
                MixedMode = true;
                MixedModeLine = line.Number;
                break;
            case "begin information" or "end information" or "network data" or "noise data" or "end":
                break;
            default:
                findings.Warning(
                    line.Number,
                    column,
                    $"the keyword {TouchstoneLines.Keyword(written)} is none of the format's and is passed over",
                    "leave it out if the file should say nothing by it");
                break;
        }
    }

    /// <summary>Takes a further line of <c>[Reference]</c>.</summary>
    public void AddReferences(int line, List<Token> words)
    {
        ImmutableArray<Complex> found = Impedances(line, words, 0);
        if (found.Length < words.Count)
        {
            findings.Error(
                line,
                words[found.Length].Column,
                $"{TouchstoneLines.Quote(words[found.Length].Text)} as a reference impedance",
                "write ohms, as in [Reference] 50 75");
        }

        References = [.. References, .. found];
    }

    private ImmutableArray<Complex> Impedances(int line, List<Token> words, int from)
    {
        ImmutableArray<Complex>.Builder found = ImmutableArray.CreateBuilder<Complex>();
        for (int i = from; i < words.Count && TouchstoneNumber.TryParseImpedance(words[i].Text, out Complex z); i++)
        {
            if (z.Real <= 0)
            {
                findings.Error(
                    line, words[i].Column, $"a reference of {words[i].Text} ohm", "a reference needs a resistance above 0 ohm, mostly 50");
                z = new Complex(50, z.Imaginary);
            }

            if (z.Imaginary != 0)
            {
                findings.WarnOnce(
                    "complex",
                    line,
                    words[i].Column,
                    $"the reference {words[i].Text} ohm is complex, which the format does not know; its waves are taken as power waves",
                    "renormalise to a real reference where the data were made");
            }

            found.Add(z);
        }

        return found.ToImmutable();
    }

    private void Once(bool again, int line, Token word, string what)
    {
        if (again)
        {
            findings.Error(line, word.Column, $"{TouchstoneLines.Quote(word.Text)} is a second {what} in the option line", "leave one");
        }
    }

    private int? Count(int line, int column, string value, string what)
    {
        if (int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out int count) && count > 0)
        {
            return count;
        }

        findings.Error(line, column, $"{TouchstoneLines.Quote(value)} as the number of {what}", "write a whole number above 0");
        return null;
    }

    [GeneratedRegex(@"^[ \t]*\[([^\]]*)\]", RegexOptions.CultureInvariant)]
    private static partial Regex Keyword();
}
