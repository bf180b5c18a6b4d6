using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Touchstone;

/// <summary>The data part of a Touchstone file: lines of numbers into points, and points into S-parameters.</summary>
internal sealed class TouchstoneRows(Findings findings, TouchstoneHeader header, int? portsOfName)
{
    private readonly ImmutableArray<double>.Builder _frequencies = ImmutableArray.CreateBuilder<double>();
    private readonly ImmutableArray<ScatteringMatrix>.Builder _points = ImmutableArray.CreateBuilder<ScatteringMatrix>();
    private readonly ImmutableArray<TouchstoneNoisePoint>.Builder _noise = ImmutableArray.CreateBuilder<TouchstoneNoisePoint>();
    private readonly List<Token> _pending = [];
    private readonly TouchstoneValues _values = new(findings, header);
    private int _ports;
    private ImmutableArray<Complex> _references = [];
    private bool _inNoise;
    private double _lastFrequency = -1;
    private double _lastNoiseFrequency = -1;
    private int _rowsBroken;

    /// <summary>Whether data have begun.</summary>
    public bool Begun { get; private set; }

    /// <summary>Whether the file was given up: more ports than two, or nothing that can be read further.</summary>
    public bool Refused { get; private set; }

    private bool IsVersion2 => header.Version is not null;

    private int NumbersPerPoint => _inNoise ? 5 : TouchstoneLayout.NumbersPerPoint(header, _ports);

    /// <summary>Acts on a keyword of version 2.</summary>
    public void Keyword(string? keyword, in SourceLine line)
    {
        if (keyword != "version" && header.Version is null && keyword is not null)
        {
            findings.WarnOnce(
                "version", line.Number, 1, "a keyword of version 2 in a file without [Version]", "begin the file with [Version] 2.0");
            if (keyword is "network data" or "number of ports")
            {
                findings.Error(line.Number, 1, "a version 2 file must begin with its version", "write [Version] 2.0 in the first line");
                Refused = true;
                return;
            }
        }

        if (header.MixedMode)
        {
            Refuse(header.MixedModeLine, "the data are mixed-mode; save single-ended data of the two ports you need as .s2p");
            return;
        }

        if (header.Ports > 2)
        {
            Refuse(
                header.PortsLine,
                string.Create(CultureInfo.InvariantCulture, $"the file has {header.Ports} ports; save the two you need as .s2p"));
            return;
        }

        if (keyword == "version" && Begun)
        {
            findings.Error(line.Number, 1, "[Version] stands behind data", "put it in the first line");
        }
        else if (keyword == "network data")
        {
            Begin(line.Number);
        }
        else if (keyword is "noise data" or "end")
        {
            FlushBroken();
            _inNoise = keyword == "noise data" || _inNoise;
        }
    }

    /// <summary>Takes a line of numbers.</summary>
    public void Add(in SourceLine line)
    {
        if (!Begun)
        {
            if (IsVersion2)
            {
                findings.Warning(
                    line.Number,
                    1,
                    "data begin without [Network Data]; they are read as such",
                    "write [Network Data] in a line above them");
            }
            else if (header.OptionLine == 0)
            {
                findings.Warning(
                    line.Number,
                    1,
                    "data begin without an option line; they are read as its absence is defined: GHz, S, magnitude and angle, 50 ohm",
                    "write # GHz S MA R 50, or what is true, above them");
            }

            Begin(line.Number, line.Tokens().Count);
        }

        if (Refused)
        {
            return;
        }

        List<Token> tokens = line.Tokens();
        if (_pending.Count == 0)
        {
            EnterNoise(tokens);
        }

        if (LooksLikeMorePorts(tokens))
        {
            Refuse(
                line.Number,
                "the first point runs over several lines as those of 3 and more ports do; save the two ports you need as .s2p");
            return;
        }

        int want = NumbersPerPoint;
        if (_pending.Count + tokens.Count > want && _pending.Count > 0)
        {
            // The broken line before was no first half of this one.
            Broken(_pending);
            _pending.Clear();
            EnterNoise(tokens);
            want = NumbersPerPoint;
        }

        _pending.AddRange(tokens);
        if (_pending.Count > want)
        {
            Broken(_pending);
            _pending.Clear();
        }
        else if (_pending.Count == want)
        {
            Token[] point = [.. _pending];
            _pending.Clear();
            if (_inNoise)
            {
                AddNoise(point);
            }
            else
            {
                AddPoint(point);
            }
        }
    }

    /// <summary>What was read, or null where an error forbids it.</summary>
    public TouchstoneData? Finish(string name)
    {
        FlushBroken();
        if (Refused)
        {
            return null;
        }

        if (!Begun && portsOfName > 2 && !IsVersion2)
        {
            Refuse(1, string.Create(CultureInfo.InvariantCulture, $"its name says {portsOfName} ports; save the two you need as .s2p"));
            return null;
        }

        int found = _frequencies.Count;
        if (found == 0 && findings.Errors == 0)
        {
            findings.Error(0, 0, "there is no point of data in the file", "a file needs at least one line of frequency and parameters");
        }

        if (_rowsBroken == 0 && header.Frequencies is int said && said != found && findings.Errors == 0)
        {
            findings.Error(
                header.FrequenciesLine,
                1,
                string.Create(CultureInfo.InvariantCulture, $"[Number of Frequencies] says {said}, the file has {found} points"),
                "correct the number, or find the points that are missing");
        }

        if (_rowsBroken == 0 && header.NoiseFrequencies is int noise && noise != _noise.Count)
        {
            findings.Warning(
                header.NoiseFrequenciesLine,
                1,
                string.Create(CultureInfo.InvariantCulture, $"[Number of Noise Frequencies] says {noise}, the file has {_noise.Count}"),
                "correct the number; the noise block is kept but not used");
        }

        if (findings.Errors > 0)
        {
            return null;
        }

        WarnOfUnits();
        return TouchstoneData.Create(
            name,
            _ports,
            _frequencies.ToImmutable(),
            _points.ToImmutable(),
            _references,
            _noise.ToImmutable(),
            header.Version ?? "1",
            header.Options);
    }

    private void Begin(int line, int firstCount = 0)
    {
        if (Begun)
        {
            return;
        }

        Begun = true;
        TouchstoneLayout layout = new(findings, header, portsOfName, Refuse);
        if (layout.Ports(line, firstCount) is not { } ports)
        {
            Refused = true;
            return;
        }

        _ports = ports;
        if (!layout.Fits(line, firstCount, ports))
        {
            Refused = true;
            return;
        }

        _references = layout.References(line, ports);
    }

    private void EnterNoise(List<Token> tokens)
    {
        if (!_inNoise && !IsVersion2 && _ports == 2 && tokens.Count == 5 && _lastFrequency >= 0
            && TouchstoneNumber.TryParse(tokens[0].Text, (int)header.Options.Unit, out double f) && f <= _lastFrequency)
        {
            _inNoise = true;
        }
    }

    /// <summary>A first point of 9 numbers followed by lines of 8 is a 4-port's, where the name doesn't say 2.</summary>
    private bool LooksLikeMorePorts(List<Token> tokens) =>
        !IsVersion2 && portsOfName is null && _ports == 2 && _frequencies.Count == 1 && _pending.Count == 0 && tokens.Count == 8;

    private void FlushBroken()
    {
        if (_pending.Count > 0)
        {
            Broken(_pending);
            _pending.Clear();
        }
    }

    private void Broken(List<Token> tokens)
    {
        _rowsBroken++;

        // A word that is no number says more than the count does.
        foreach (Token token in tokens)
        {
            if (!TouchstoneNumber.TryParse(token.Text, 0, out _) && !TouchstoneNumber.IsMinusInfinity(token.Text))
            {
                _values.NotANumber(token);
                return;
            }
        }

        string wanted = _inNoise
            ? "a line of the noise block has 5 numbers: frequency, least noise figure in dB, "
                + "magnitude and angle of the best source, noise resistance"
            : _ports == 1 ? "a point of a 1-port has 3 numbers: the frequency and one pair"
            : string.Create(
                CultureInfo.InvariantCulture,
                $"a point of a 2-port has {NumbersPerPoint} numbers: the frequency and {(NumbersPerPoint == 9 ? "four" : "three")} pairs");
        findings.Error(tokens[0].Line, tokens[0].Column, $"{TouchstoneLayout.Words(tokens.Count)} where a point should stand", wanted);
    }

    private void AddNoise(Token[] words)
    {
        int line = words[0].Line;
        double[] numbers = new double[5];
        for (int i = 0; i < 5; i++)
        {
            if (!TouchstoneNumber.TryParse(words[i].Text, i == 0 ? (int)header.Options.Unit : 0, out numbers[i]))
            {
                _values.NotANumber(words[i]);
                _rowsBroken++;
                return;
            }
        }

        if (numbers[0] <= _lastNoiseFrequency)
        {
            findings.Error(
                line,
                words[0].Column,
                $"the frequency {words[0].Text} of the noise block is not above the one before",
                "frequencies rise from line to line");
        }

        _lastNoiseFrequency = numbers[0];
        double resistance = IsVersion2 ? numbers[4] : numbers[4] * _references[0].Real;
        _noise.Add(new TouchstoneNoisePoint(numbers[0], numbers[1], TouchstoneValues.Polar(numbers[2], numbers[3]), resistance));
    }

    private void AddPoint(Token[] words)
    {
        int line = words[0].Line;
        if (!TouchstoneNumber.TryParse(words[0].Text, (int)header.Options.Unit, out double frequency))
        {
            _values.NotANumber(words[0]);
            _rowsBroken++;
            return;
        }

        Complex[] pairs = new Complex[(words.Length - 1) / 2];
        for (int i = 0; i < pairs.Length; i++)
        {
            if (!_values.TryPair(words[(2 * i) + 1], words[(2 * i) + 2], out pairs[i]))
            {
                _rowsBroken++;
                return;
            }
        }

        if (frequency < 0)
        {
            findings.Error(line, words[0].Column, $"the frequency {words[0].Text} is below 0", "frequencies are 0 or more");
            return;
        }

        if (frequency <= _lastFrequency)
        {
            findings.Error(
                line,
                words[0].Column,
                $"the frequency {words[0].Text} is not above the one before",
                _ports == 2 && !IsVersion2
                    ? "frequencies rise from point to point; only a noise block, 5 numbers a line, begins lower"
                    : "frequencies rise from point to point");
            return;
        }

        _lastFrequency = frequency;
        if (!_values.TryScattering(pairs, _ports, _references, out ScatteringMatrix s))
        {
            findings.Error(
                line,
                words[0].Column,
                $"the {header.Options.Parameter}-parameters at {words[0].Text} have no S-parameters in this reference",
                "save the data as S-parameters");
            return;
        }

        if (header.Options.Parameter == TouchstoneParameter.S && (Complex.Abs(s.S11) > 10 || (_ports == 2 && Complex.Abs(s.S22) > 10)))
        {
            double size = _ports == 2 ? Math.Max(Complex.Abs(s.S11), Complex.Abs(s.S22)) : Complex.Abs(s.S11);
            findings.WarnOnce(
                "size",
                line,
                words[1].Column,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"a reflection of {size:G4} times the wave that comes in; the option line says {header.Options.Format}"),
                "see whether the data are MA, DB or RI and say so in the option line");
        }

        _frequencies.Add(frequency);
        _points.Add(s);
    }

    private void WarnOfUnits()
    {
        double highest = _frequencies[^1];
        if (highest is < 1000 or > 1e12)
        {
            findings.Warning(
                header.OptionLine,
                header.OptionLine > 0 ? 1 : 0,
                string.Create(CultureInfo.InvariantCulture, $"the highest frequency reads as {highest:G6} Hz"),
                "see whether the unit in the option line (GHz where none stands) is that of the data");
        }
    }

    private void Refuse(int line, string why)
    {
        if (!Refused)
        {
            findings.Error(line, 1, TouchstoneReader.ManyPorts, why);
            Refused = true;
        }
    }
}
