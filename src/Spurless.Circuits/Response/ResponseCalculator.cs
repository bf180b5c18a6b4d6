using System.Collections.Immutable;
using System.Numerics;
using Spurless.Circuits.Measured;
using Spurless.Circuits.Solving;
using Spurless.Circuits.TwoPorts;
using Spurless.Files.Diagnostics;
using Spurless.Radio.Quantities;

namespace Spurless.Circuits.Response;

/// <summary>The response of a circuit or a measured network at frequencies, and the figures of its pass-band.</summary>
public static class ResponseCalculator
{
    /// <summary>From this loss on, what leaks round an unscreened circuit decides (common practice).</summary>
    public const double LeakageNoteDb = 70;

    /// <summary>What is asked for and cannot be had; null where all of it can.</summary>
    /// <param name="network">The network.</param>
    /// <param name="name">Its name.</param>
    /// <param name="frequenciesHz">The frequencies in hertz.</param>
    public static Refusal? Refuse(ITwoPort network, string name, ReadOnlySpan<double> frequenciesHz)
    {
        ArgumentNullException.ThrowIfNull(network);
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        foreach (double f in frequenciesHz)
        {
            if (!double.IsFinite(f) || f < 0 || (f == 0 && network is not MeasuredTwoPort))
            {
                return new Refusal(FormattableString.Invariant($"a frequency of {f} Hz"), "write frequencies above 0");
            }

            low = Math.Min(low, f);
            high = Math.Max(high, f);
        }

        if (frequenciesHz.Length == 0 || (low >= network.LowestHz && high <= network.HighestHz))
        {
            return null;
        }

        string missing = network is MeasuredTwoPort measured
            ? measured.MissingSpan(low, high)!
            : $"{name} holds a sweep that runs from {Megahertz(network.LowestHz)} to "
                + $"{Megahertz(network.HighestHz)}, asked for is {Megahertz(low)} to {Megahertz(high)}";
        return new Refusal(missing, "ask within the sweep, or measure further");
    }

    /// <summary>The response.</summary>
    /// <param name="network">A circuit (<see cref="CircuitTwoPort"/>) or a measured network.</param>
    /// <param name="name">Its name.</param>
    /// <param name="frequenciesHz">Frequencies in hertz within the network's range, in any order.</param>
    /// <param name="nearHz">The channel whose pass-band is meant, in hertz; null for the one with the least loss.</param>
    /// <param name="cancellation">Stops the computation.</param>
    /// <exception cref="ArgumentException"><see cref="Refuse"/> is not null.</exception>
    /// <remarks>
    /// Where a lossless circuit resonates so exactly on a frequency that it has no one solution there, the values are those 1e-9 of the
    /// frequency beside.
    /// </remarks>
    /// <exception cref="CircuitException">The circuit has no one solution there either.</exception>
    public static ResponseResult Compute(ITwoPort network, string name, ReadOnlySpan<double> frequenciesHz, double? nearHz = null,
        CancellationToken cancellation = default)
    {
        if (Refuse(network, name, frequenciesHz) is { } refusal)
        {
            throw new ArgumentException(refusal.ToString(), nameof(frequenciesHz));
        }

        Transmission transmission = new(network);
        int ports = transmission.HasTransmission ? 2 : 1;
        ImmutableArray<ResponsePoint>.Builder points = ImmutableArray.CreateBuilder<ResponsePoint>(frequenciesHz.Length);
        double most = double.NegativeInfinity;
        double[] asked = [.. frequenciesHz];
        ScatteringMatrix[] all = transmission.At(asked);
        double?[] delays = transmission.GroupDelays(asked);
        for (int i = 0; i < asked.Length; i++)
        {
            points.Add(new ResponsePoint(asked[i], all[i], delays[i], InputImpedance(all[i].S11, network.Reference1)));
            most = Math.Max(most, all[i].InsertionLossDb);
        }

        PassbandFindings found = PassbandFinder.Find(network, nearHz, cancellation);
        List<NetworkRemark> remarks = [.. transmission.Measured?.Remarks ?? []];

        if (found.IsTooFine)
        {
            remarks.Add(new NetworkRemark.TurnsTooOften());
        }

        if (most > LeakageNoteDb)
        {
            remarks.Add(new NetworkRemark.LeakageDecides(LeakageNoteDb));
        }

        return new ResponseResult
        {
            Name = name,
            Ports = ports,
            References = ports == 1 ? [network.Reference1] : [network.Reference1, network.Reference2],
            Points = points.MoveToImmutable(),
            Passband = found.Main,
            FurtherPassbands = found.Further,
            Lobes = found.Lobes,
            Notches = found.Notches,
            NearHz = nearHz,
            Remarks = [.. remarks],
        };
    }

    /// <summary>
    /// The frequencies that show a network best where none are asked for: a file's own points; of a circuit 401 from half the centre of its
    /// pass-band to twice it, else 100 kHz to 1 GHz.
    /// </summary>
    /// <param name="network">The network.</param>
    /// <param name="nearHz">A channel that is to be among them, where the network is known there; null for none.</param>
    /// <param name="cancellation">Stops the search for the pass-band.</param>
    public static double[] DefaultFrequencies(ITwoPort network, double? nearHz = null, CancellationToken cancellation = default)
    {
        double[] usual = Usual(network, nearHz, cancellation);
        return nearHz is { } near && near > 0 && near >= network.LowestHz && near <= network.HighestHz
            && Array.BinarySearch(usual, near) is < 0 and var place
            ? [.. usual[..~place], near, .. usual[~place..]]
            : usual;
    }

    private static double[] Usual(ITwoPort network, double? nearHz, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(network);
        if (network is MeasuredTwoPort measured)
        {
            return [.. measured.FrequenciesHz];
        }

        double? centre = PassbandFinder.Find(network, nearHz, cancellation).Main?.CentreHz;
        double from = Math.Max(network.LowestHz, centre / 2 ?? PassbandFinder.FromHz);
        double to = Math.Min(network.HighestHz, 2 * centre ?? PassbandFinder.ToHz);
        return from < to ? FrequencyGrid.Logarithmic(from, to, 401) : [network.LowestHz];
    }

    private static Complex? InputImpedance(Complex s11, Complex reference)
    {
        // Power waves: V = (Z* + Z S) a, I = (1 - S) a, but for a common factor.
        Complex z = (Complex.Conjugate(reference) + (reference * s11)) / (1 - s11);
        return s11 != Complex.One && Complex.IsFinite(z) ? z : null;
    }

    private static string Megahertz(double hertz) => MegahertzText.Of(hertz, 0, 6) + " MHz";
}
