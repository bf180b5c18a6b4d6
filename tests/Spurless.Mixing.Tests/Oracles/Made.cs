using Spurless.Mixing.Causes;
using Spurless.Mixing.Levels;
using Spurless.Mixing.Search;

namespace Spurless.Mixing.Tests.Oracles;

/// <summary>Arrivals and reaches as a test states them, and the level of a transmitter's product one by one.</summary>
internal static class Made
{
    /// <summary>A level found by some other way than <see cref="TransmitterArrival.Compute"/>.</summary>
    /// <param name="levelDbm">Level in dBm at the stage's output.</param>
    /// <param name="sigmaDb">One sigma in dB.</param>
    /// <returns>The arrival, nothing assumed.</returns>
    public static TransmitterArrival Arrival(double levelDbm, double sigmaDb = 0) => new() { LevelDbm = levelDbm, SigmaDb = sigmaDb };

    /// <summary>From the output power and a path that was computed for the channel's frequency.</summary>
    /// <param name="name">The transmitter's name.</param>
    /// <param name="powerDbm">Output power P_A in dBm; null where unknown.</param>
    /// <param name="pathLossDb">Loss from its output (behind the output filter) to the antenna connector on the channel, in dB, antennas
    /// and feedlines included; null where unknown.</param>
    /// <param name="sigmaDb">One sigma of the path in dB.</param>
    /// <param name="outputFilterOnChannelDb">Loss of its output filter on the channel in dB; 0 for none.</param>
    /// <param name="assumed">What the path model assumed.</param>
    /// <returns>The reach; unknown where power or path is.</returns>
    public static TransmitterReach Reach(
        string name,
        double? powerDbm,
        double? pathLossDb,
        double sigmaDb,
        double outputFilterOnChannelDb,
        IReadOnlyList<Assumption>? assumed = null)
    {
        List<MissingInput> missing = [];
        if (powerDbm is null)
        {
            missing.Add(new MissingInput(MissingKind.OutputPower, name));
        }

        if (pathLossDb is null)
        {
            missing.Add(new MissingInput(MissingKind.Path, name));
        }

        return new TransmitterReach
        {
            ReferenceDbm = powerDbm - outputFilterOnChannelDb - pathLossDb,
            OutputFilterDb = outputFilterOnChannelDb,
            SigmaDb = sigmaDb,
            Assumed = assumed ?? [],
            Missing = missing,
        };
    }

    /// <summary>Level of a product at a receiver's input.</summary>
    /// <param name="input">The search of one transmitter.</param>
    /// <param name="product">A product that contains the transmitter.</param>
    /// <returns>Micro-dBm; <see cref="ProductRecord.UnknownLevel"/> where a figure is missing.</returns>
    public static long LevelMicroDbm(this TransmitterSearchInput input, in ProductRecord product)
    {
        long under = 0;
        for (int term = 0; term < product.Signals; term++)
        {
            int emitter = product.Emitter(term);
            if (emitter == input.Transmitter)
            {
                continue;
            }

            if (input.UnderPowerMicroDb[emitter] == MicroDb.Unknown)
            {
                return ProductRecord.UnknownLevel;
            }

            under += Math.Abs(product.Coefficient(term)) * (long)input.UnderPowerMicroDb[emitter];
        }

        return input.LevelMicroDbm(product.Receiver, product.Order, under);
    }
}
