using System.Diagnostics.CodeAnalysis;
using System.Runtime.CompilerServices;

namespace Spurless.Mixing.Search;

/// <summary>One product on one receiver, in 48 bytes. Immutable; <c>default</c> is no product.</summary>
/// <remarks>Terms stand in ascending order of the emitter's index; signs are such that the product's frequency is above 0.</remarks>
public struct ProductRecord : IEquatable<ProductRecord>, IComparable<ProductRecord>
{
    /// <summary>
    /// Stands in <see cref="LevelMicroDbm"/> for a product with an emitter of unknown level, or of a receiver without stages.
    /// </summary>
    public const long UnknownLevel = long.MaxValue;

    // Not readonly, so that the search can write a record where it is to stand: built elsewhere and copied over it costs as much again.
    private long _levelMicroDbm;
    private int _receiver;
    private TermEmitters _emitters;
    private TermCoefficients _coefficients;
    private byte _order;
    private byte _signals;
    private byte _stage;

    /// <summary>Makes a record; terms in any order, signs as they come out positive in frequency.</summary>
    internal ProductRecord(
        int receiver, ReadOnlySpan<int> emitters, ReadOnlySpan<int> coefficients, bool negate, long levelMicroDbm, int stage) =>
        Write(ref this, receiver, emitters, coefficients, negate, levelMicroDbm, stage);

    /// <summary>Makes a record in its place.</summary>
    internal static void Write(
        ref ProductRecord to,
        int receiver,
        ReadOnlySpan<int> emitters,
        ReadOnlySpan<int> coefficients,
        bool negate,
        long levelMicroDbm,
        int stage)
    {
        to = default;
        to._receiver = receiver;
        to._levelMicroDbm = levelMicroDbm;
        to._stage = (byte)stage;
        to._signals = (byte)emitters.Length;
        int sign = negate ? -1 : 1;
        if (emitters.Length == 3 && coefficients.Length == 3)
        {
            // The usual case without a branch: emitters come in order of strength, which to their indices is any order.
            int a = Packed(emitters[0], sign * coefficients[0]);
            int b = Packed(emitters[1], sign * coefficients[1]);
            int c = Packed(emitters[2], sign * coefficients[2]);
            (a, b) = (Math.Min(a, b), Math.Max(a, b));
            (b, c) = (Math.Min(b, c), Math.Max(b, c));
            (a, b) = (Math.Min(a, b), Math.Max(a, b));
            (to._emitters[0], to._emitters[1], to._emitters[2]) = ((ushort)(a >> 8), (ushort)(b >> 8), (ushort)(c >> 8));
            (to._coefficients[0], to._coefficients[1], to._coefficients[2]) = ((sbyte)a, (sbyte)b, (sbyte)c);
            to._order = (byte)(Math.Abs(coefficients[0]) + Math.Abs(coefficients[1]) + Math.Abs(coefficients[2]));
            return;
        }

        int order = 0;
        Span<int> terms = stackalloc int[emitters.Length];
        for (int i = 0; i < emitters.Length && i < coefficients.Length; i++)
        {
            order += Math.Abs(coefficients[i]);
            // Insertion into what stands there already: at most nine.
            int term = Packed(emitters[i], sign * coefficients[i]);
            int at = i;
            for (; at > 0 && terms[at - 1] > term; at--)
            {
                terms[at] = terms[at - 1];
            }

            terms[at] = term;
        }

        for (int i = 0; i < terms.Length; i++)
        {
            to._emitters[i] = (ushort)(terms[i] >> 8);
            to._coefficients[i] = (sbyte)terms[i];
        }

        to._order = (byte)order;
    }

    /// <summary>A term as one number that sorts by emitter: 16 bits of index over 8 of coefficient.</summary>
    private static int Packed(int emitter, int coefficient) => emitter << 8 | (byte)coefficient;

    /// <summary>Index into <see cref="SearchProblem.Receivers"/>.</summary>
    public readonly int Receiver => _receiver;

    /// <summary>n = sum |k_i|.</summary>
    public readonly int Order => _order;

    /// <summary>Number of emitters in the product.</summary>
    public readonly int Signals => _signals;

    /// <summary>
    /// Level of the strongest stage, referred to the receiver's input, in micro-dBm; <see cref="UnknownLevel"/> where unknown.
    /// </summary>
    public readonly long LevelMicroDbm => _levelMicroDbm;

    /// <summary>Whether the level is known.</summary>
    public readonly bool HasLevel => _levelMicroDbm != UnknownLevel;

    /// <summary>The same product where its level is known or not, whatever it is.</summary>
    /// <param name="known">Whether it is known: then it counts as 0 dBm until somebody works it out.</param>
    public readonly ProductRecord Told(bool known)
    {
        ProductRecord told = this;
        (told._levelMicroDbm, told._stage) = (known ? 0 : UnknownLevel, 0);
        return told;
    }

    /// <summary>Index of the strongest stage (of equal ones the first); 0 where the level is unknown.</summary>
    public readonly int Stage => _stage;

    /// <summary>Emitter of a term.</summary>
    /// <param name="term">0 to <see cref="Signals"/> - 1.</param>
    /// <returns>Index into <see cref="SearchProblem.Emitters"/>.</returns>
    public readonly int Emitter(int term) => _emitters[term];

    /// <summary>Coefficient of a term.</summary>
    /// <param name="term">0 to <see cref="Signals"/> - 1.</param>
    /// <returns>Never 0.</returns>
    public readonly int Coefficient(int term) => _coefficients[term];

    /// <summary>The product's frequency f_k = sum k_i f_i.</summary>
    /// <param name="problem">The problem it was found in.</param>
    /// <returns>Hertz, above 0.</returns>
    public readonly long FrequencyHz(SearchProblem problem)
    {
        long sum = 0;
        for (int i = 0; i < _signals; i++)
        {
            sum += _coefficients[i] * problem.Emitters[_emitters[i]].FrequencyHz;
        }

        return sum;
    }

    /// <summary>
    /// By receiver, then descending level (unknown levels last), then order, then terms: a total order of distinct products.
    /// </summary>
    public readonly int CompareTo(ProductRecord other)
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
    public readonly bool Equals(ProductRecord other) => CompareTo(other) == 0 && _stage == other._stage;

    /// <inheritdoc/>
    public override readonly bool Equals([NotNullWhen(true)] object? obj) => obj is ProductRecord other && Equals(other);

    /// <inheritdoc/>
    public override readonly int GetHashCode() =>
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
    public override readonly string ToString()
    {
        List<string> terms = [];
        for (int i = 0; i < _signals; i++)
        {
            terms.Add(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{_coefficients[i]:+0;-0}*e{_emitters[i]}"));
        }

        string level = HasLevel ? string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{_levelMicroDbm} udBm") : "unknown";
        return string.Create(
            System.Globalization.CultureInfo.InvariantCulture, $"r{_receiver} {string.Join(' ', terms)} {level} stage {_stage}");
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
