using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;

namespace Spurless.Mixing.Search;

/// <summary>One product on one receiver, in 48 bytes. Immutable; <c>default</c> is no product.</summary>
/// <remarks>Terms stand in ascending order of the emitter's index; signs are such that the product's frequency is above 0.</remarks>
public readonly struct ProductRecord : IEquatable<ProductRecord>, IComparable<ProductRecord>
{
    /// <summary>Stands in <see cref="LevelMicroDbm"/> for a product with an emitter of unknown level, or of a receiver without stages.</summary>
    public const long UnknownLevel = long.MaxValue;

    private readonly long _levelMicroDbm;
    private readonly int _receiver;
    private readonly TermEmitters _emitters;
    private readonly TermCoefficients _coefficients;
    private readonly byte _order;
    private readonly byte _signals;
    private readonly byte _stage;

    /// <summary>Makes a record; terms in any order, signs as they come out positive in frequency.</summary>
    internal ProductRecord(
        int receiver, ReadOnlySpan<int> emitters, ReadOnlySpan<int> coefficients, bool negate, long levelMicroDbm, int stage)
    {
        _receiver = receiver;
        _levelMicroDbm = levelMicroDbm;
        _stage = (byte)stage;
        _signals = (byte)emitters.Length;
        int order = 0;
        Span<ushort> ownEmitters = _emitters;
        Span<sbyte> ownCoefficients = _coefficients;
        for (int i = 0; i < emitters.Length && i < coefficients.Length; i++)
        {
            int emitter = emitters[i];
            int coefficient = coefficients[i];
            order += coefficient < 0 ? -coefficient : coefficient;
            // Insertion into what stands there already: at most nine.
            int at = i;
            for (; at > 0 && ownEmitters[at - 1] > emitter; at--)
            {
                ownEmitters[at] = ownEmitters[at - 1];
                ownCoefficients[at] = ownCoefficients[at - 1];
            }

            ownEmitters[at] = (ushort)emitter;
            ownCoefficients[at] = (sbyte)(negate ? -coefficient : coefficient);
        }

        _order = (byte)order;
    }

    /// <summary>Index into <see cref="SearchProblem.Receivers"/>.</summary>
    public int Receiver => _receiver;

    /// <summary>n = sum |k_i|.</summary>
    public int Order => _order;

    /// <summary>Number of emitters in the product.</summary>
    public int Signals => _signals;

    /// <summary>Level of the strongest stage, referred to the receiver's input, in micro-dBm; <see cref="UnknownLevel"/> where unknown.</summary>
    public long LevelMicroDbm => _levelMicroDbm;

    /// <summary>Whether the level is known.</summary>
    public bool HasLevel => _levelMicroDbm != UnknownLevel;

    /// <summary>Index of the strongest stage (of equal ones the first); 0 where the level is unknown.</summary>
    public int Stage => _stage;

    /// <summary>Emitter of a term.</summary>
    /// <param name="term">0 to <see cref="Signals"/> - 1.</param>
    /// <returns>Index into <see cref="SearchProblem.Emitters"/>.</returns>
    public int Emitter(int term) => _emitters[term];

    /// <summary>Coefficient of a term.</summary>
    /// <param name="term">0 to <see cref="Signals"/> - 1.</param>
    /// <returns>Never 0.</returns>
    public int Coefficient(int term) => _coefficients[term];

    /// <summary>The product's frequency f_k = sum k_i f_i.</summary>
    /// <param name="problem">The problem it was found in.</param>
    /// <returns>Hertz, above 0.</returns>
    public long FrequencyHz(SearchProblem problem)
    {
        long sum = 0;
        for (int i = 0; i < _signals; i++)
        {
            sum += _coefficients[i] * problem.Emitters[_emitters[i]].FrequencyHz;
        }

        return sum;
    }

    /// <summary>The greatest width the product can occupy, sum |k_i| b_i.</summary>
    /// <param name="problem">The problem it was found in.</param>
    /// <returns>Hertz.</returns>
    public long BandwidthHz(SearchProblem problem)
    {
        long sum = 0;
        for (int i = 0; i < _signals; i++)
        {
            sum += Math.Abs((int)_coefficients[i]) * problem.Emitters[_emitters[i]].BandwidthHz;
        }

        return sum;
    }

    /// <summary>By receiver, then descending level (unknown levels last), then order, then terms: a total order of distinct products.</summary>
    public int CompareTo(ProductRecord other)
    {
        int c = _receiver.CompareTo(other._receiver);
        if (c == 0)
        {
            c = HasLevel != other.HasLevel ? (HasLevel ? -1 : 1) : other._levelMicroDbm.CompareTo(_levelMicroDbm);
        }

        if (c == 0)
        {
            c = _order.CompareTo(other._order);
        }

        for (int i = 0; c == 0 && i < Math.Min(_signals, other._signals); i++)
        {
            c = _emitters[i].CompareTo(other._emitters[i]);
            if (c == 0)
            {
                c = other._coefficients[i].CompareTo(_coefficients[i]);
            }
        }

        return c != 0 ? c : _signals.CompareTo(other._signals);
    }

    /// <inheritdoc/>
    public bool Equals(ProductRecord other) => CompareTo(other) == 0 && _stage == other._stage;

    /// <inheritdoc/>
    public override bool Equals([NotNullWhen(true)] object? obj) => obj is ProductRecord other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(_receiver, _levelMicroDbm, _order, _emitters[0], _coefficients[0], _emitters[_signals == 0 ? 0 : _signals - 1]);

    /// <summary>Equality of all fields.</summary>
    public static bool operator ==(ProductRecord left, ProductRecord right) => left.Equals(right);

    /// <summary>Inequality of any field.</summary>
    public static bool operator !=(ProductRecord left, ProductRecord right) => !left.Equals(right);

    /// <summary>Order of <see cref="CompareTo"/>.</summary>
    public static bool operator <(ProductRecord left, ProductRecord right) => left.CompareTo(right) < 0;

    /// <summary>Order of <see cref="CompareTo"/>.</summary>
    public static bool operator >(ProductRecord left, ProductRecord right) => left.CompareTo(right) > 0;

    /// <summary>Order of <see cref="CompareTo"/>.</summary>
    public static bool operator <=(ProductRecord left, ProductRecord right) => left.CompareTo(right) <= 0;

    /// <summary>Order of <see cref="CompareTo"/>.</summary>
    public static bool operator >=(ProductRecord left, ProductRecord right) => left.CompareTo(right) >= 0;

    /// <summary>For the debugger and test failures: receiver, terms and level.</summary>
    public override string ToString()
    {
        List<string> terms = [];
        for (int i = 0; i < _signals; i++)
        {
            terms.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{_coefficients[i]:+0;-0}*e{_emitters[i]}"));
        }

        string level = HasLevel ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{_levelMicroDbm} udBm") : "unknown";
        return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"r{_receiver} {string.Join(' ', terms)} {level} stage {_stage}");
    }

    [InlineArray(9)]
    private struct TermEmitters
    {
        private ushort _first;
    }

    [InlineArray(9)]
    private struct TermCoefficients
    {
        private sbyte _first;
    }
}
