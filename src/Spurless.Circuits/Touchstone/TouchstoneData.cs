using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.TwoPorts;

namespace Spurless.Circuits.Touchstone;

/// <summary>
/// The content of a Touchstone file with one or two ports, as S-parameters in the file's own reference.
/// </summary>
/// <remarks>
/// Time convention e^{+jwt}; <c>S21</c> is the wave out of port 2 for one into port 1. A one-port has <c>S11</c> only; the three
/// others are NaN, so that using them shows. With a complex reference impedance the waves are power waves
/// (K. Kurokawa, IEEE Trans. MTT-13, 1965; from memory), for a real one these are the usual waves.
/// </remarks>
public sealed class TouchstoneData
{
    private TouchstoneData(
        string name,
        string version,
        int ports,
        ImmutableArray<double> frequenciesHz,
        ImmutableArray<ScatteringMatrix> points,
        ImmutableArray<Complex> references,
        ImmutableArray<TouchstoneNoisePoint> noise,
        TouchstoneOptions options)
    {
        Name = name;
        Version = version;
        Ports = ports;
        FrequenciesHz = frequenciesHz;
        Points = points;
        References = references;
        Noise = noise;
        Options = options;
    }

    /// <summary>The file's name as the user gave it.</summary>
    public string Name { get; }

    /// <summary>Version of the format: <c>1</c>, <c>2.0</c> or <c>2.1</c>.</summary>
    public string Version { get; }

    /// <summary>Number of ports, 1 or 2.</summary>
    public int Ports { get; }

    /// <summary>Frequencies in hertz, rising.</summary>
    public ImmutableArray<double> FrequenciesHz { get; }

    /// <summary>S-parameters at each of <see cref="FrequenciesHz"/>.</summary>
    public ImmutableArray<ScatteringMatrix> Points { get; }

    /// <summary>Reference impedance of each port in ohms.</summary>
    public ImmutableArray<Complex> References { get; }

    /// <summary>The noise block; empty where there is none.</summary>
    public ImmutableArray<TouchstoneNoisePoint> Noise { get; }

    /// <summary>The option line of the file read.</summary>
    public TouchstoneOptions Options { get; }

    /// <summary>Puts data of the program's own, or of a file, together.</summary>
    /// <param name="name">Name for messages.</param>
    /// <param name="ports">1 or 2.</param>
    /// <param name="frequenciesHz">Frequencies in hertz, finite, not negative, rising, at least one.</param>
    /// <param name="points">S-parameters, one per frequency; of a one-port only S11 is taken.</param>
    /// <param name="references">One reference for all ports or one per port, in ohms, real part above 0.</param>
    /// <param name="noise">Noise block, may be empty.</param>
    /// <param name="version">Version read.</param>
    /// <param name="options">Option line read.</param>
    /// <exception cref="ArgumentException">The above does not hold.</exception>
    public static TouchstoneData Create(
        string name,
        int ports,
        ImmutableArray<double> frequenciesHz,
        ImmutableArray<ScatteringMatrix> points,
        ImmutableArray<Complex> references,
        ImmutableArray<TouchstoneNoisePoint> noise = default,
        string version = "1",
        TouchstoneOptions? options = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(ports, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(ports, 2);
        if (frequenciesHz.Length == 0 || frequenciesHz.Length != points.Length)
        {
            throw new ArgumentException("there must be as many points as frequencies, at least one", nameof(points));
        }

        for (int i = 0; i < frequenciesHz.Length; i++)
        {
            if (!double.IsFinite(frequenciesHz[i]) || frequenciesHz[i] < 0 || (i > 0 && frequenciesHz[i] <= frequenciesHz[i - 1]))
            {
                throw new ArgumentException("frequencies must be finite, not negative, and rise", nameof(frequenciesHz));
            }
        }

        if (references.Length != 1 && references.Length != ports)
        {
            throw new ArgumentException("one reference for all ports, or one per port", nameof(references));
        }

        foreach (Complex reference in references)
        {
            if (!(reference.Real > 0) || !Complex.IsFinite(reference))
            {
                throw new ArgumentException("a reference must be finite and have a real part above 0 ohm", nameof(references));
            }
        }

        if (ports == 1)
        {
            Complex none = new(double.NaN, double.NaN);
            points = [.. points.Select(p => new ScatteringMatrix(p.S11, none, none, none))];
        }

        ImmutableArray<Complex> perPort = references.Length == ports ? references : [.. Enumerable.Repeat(references[0], ports)];
        return new TouchstoneData(
            name, version, ports, frequenciesHz, points, perPort, noise.IsDefault ? [] : noise, options ?? TouchstoneOptions.Default);
    }
}
