using System.Globalization;
using Spurless.Mixing.Levels;

namespace Spurless.Sites.Studies;

/// <summary>What a line of the sum is.</summary>
public enum SumLineKind
{
    /// <summary>Added to what stands above.</summary>
    Part,

    /// <summary>The sum so far: a level in dBm.</summary>
    Subtotal,

    /// <summary>A level that is compared with, not added.</summary>
    Reference,

    /// <summary>What comes out: in dB over noise.</summary>
    Result,
}

/// <summary>One line of the sum that leads to a product's level.</summary>
/// <param name="What">In words.</param>
/// <param name="Value">In dB or dBm.</param>
/// <param name="Kind">What it is.</param>
public sealed record SumLine(string What, double Value, SumLineKind Kind);

/// <summary>The arithmetic of a product's level, line by line, as it adds up.</summary>
public static class ProductArithmetic
{
    /// <summary>The line of the part that falls into the channel: what stands above it is the level at the receiver's input.</summary>
    public const string ShareInside = "share inside the channel";

    /// <summary>
    /// The sum of a product. Made in the receiver or an amplifier of its chain: <c>sum |k_i| P_i - (n-1) IIP_n + 20 lg(C_k/C_ref)</c>, referred to the
    /// receiver's input. Made in a transmitter: what arrives there, turn-round loss, output filter, path, chain. Then share in the channel and noise.
    /// </summary>
    /// <param name="receiver">The findings it belongs to.</param>
    /// <param name="product">One of their products.</param>
    /// <returns>The lines; empty for a product without a level. Parts down to a subtotal add up to it, the subtotal before them counted in.</returns>
    public static IReadOnlyList<SumLine> Of(ReceiverFindings receiver, ProductFinding product)
    {
        if (product is not { LevelDbm: { } level, InChannelLevelDbm: { } inChannel })
        {
            return [];
        }

        List<SumLine> lines = [];
        if (product.Mechanism == Mechanism.Transmitter)
        {
            if (product.Sum is not { } sum)
            {
                return [];
            }

            InTransmitter(sum, lines);
        }
        else
        {
            InReceiver(receiver, product, level, lines);
        }

        lines.Add(new SumLine("at the receiver's input", level, SumLineKind.Subtotal));
        lines.Add(new SumLine(ShareInside, inChannel - level, SumLineKind.Part));
        lines.Add(new SumLine("in your channel", inChannel, SumLineKind.Subtotal));
        lines.Add(new SumLine("noise floor", receiver.NoiseFloorDbm, SumLineKind.Reference));
        lines.Add(new SumLine("over noise", inChannel - receiver.NoiseFloorDbm, SumLineKind.Result));
        return lines;
    }

    private static void InReceiver(ReceiverFindings receiver, ProductFinding product, double level, List<SumLine> lines)
    {
        int stage = 0;
        while (receiver.Chain.ActiveStages[stage].Name != product.MadeIn)
        {
            stage++;
        }

        Intercepts intercepts = receiver.Chain.ActiveStages[stage].Intercepts;
        double sum = 0;
        foreach (Term term in product.Terms)
        {
            int times = Math.Abs(term.Coefficient);
            double arrives = (receiver.Carriers[term.Emitter].LevelAtAntennaDbm ?? 0) + receiver.Chain.GainToStageDb(stage, term.FrequencyHz);
            Add(times == 1 ? term.Name : string.Create(CultureInfo.InvariantCulture, $"{term.Name}, {times} times {arrives:0.0} dBm"), times * arrives);
        }

        double intercept = intercepts.Dbm(product.Order);
        Add(
            string.Create(CultureInfo.InvariantCulture, $"intercept of order {product.Order}, {product.Order - 1} times {intercept:0.0} dBm taken away"),
            -(product.Order - 1) * intercept);
        double factor = 20 * Math.Log10(
            (double)Multinomial.Coefficient([.. product.Terms.Select(static t => t.Coefficient)]) / Multinomial.Reference(product.Order));
        AddUnlessZero("factor of the mixture against two equal carriers", factor);
        AddUnlessZero("noise-like carriers and further stages", level - (sum + receiver.Chain.ReferralDb(stage, product.FrequencyHz)));
        AddUnlessZero("gain from there to the receiver's input", receiver.Chain.ReferralDb(stage, product.FrequencyHz));

        void Add(string what, double value)
        {
            sum += value;
            lines.Add(new SumLine(what, value, SumLineKind.Part));
        }

        void AddUnlessZero(string what, double value)
        {
            if (Math.Abs(value) >= 0.005)
            {
                Add(what, value);
            }
        }
    }

    /// <summary>
    /// <c>P_A - sum |k_i| (P_A - P_i,A) - T - F</c>, begun with the strongest that arrives taken once: <c>P_1,A</c>; every further time one takes part it
    /// costs what it lies under the transmitter's own power.
    /// </summary>
    private static void InTransmitter(TransmitterSum sum, List<SumLine> lines)
    {
        IncomingCarrier first = sum.Incoming.MaxBy(static i => i.ArrivesDbm)!;
        Part($"{first.Emitter}, output power", first.PowerDbm);
        Part($"coupling to {sum.Transmitter}", -first.CouplingDb);
        UnlessZero($"output filter of {sum.Transmitter}, inward", -first.OutputFilterDb);
        UnlessZero($"isolator of {sum.Transmitter}", -first.IsolatorDb);
        lines.Add(new SumLine("arrives at its output stage", first.ArrivesDbm, SumLineKind.Subtotal));
        foreach (IncomingCarrier incoming in sum.Incoming)
        {
            int more = incoming == first ? incoming.Times - 1 : incoming.Times;
            double under = sum.PowerDbm - incoming.ArrivesDbm;
            if (more > 0)
            {
                string times = more == 1 ? "" : FormattableString.Invariant($" {more} times");
                string again = incoming == first ? " again," : ",";
                Part(FormattableString.Invariant($"{incoming.Emitter}{again}{times} {under:0.0} dB under the transmitter's power"), -more * under);
            }
        }

        Part("turn-round loss", -sum.TurnRoundLossDb);
        UnlessZero($"output filter of {sum.Transmitter}, on your channel", -sum.OutputFilterDb);
        lines.Add(new SumLine("leaves the transmitter", sum.LeavesDbm, SumLineKind.Subtotal));
        Part("path to your antenna connector", -sum.PathDb);
        lines.Add(new SumLine("at the antenna connector", sum.AtAntennaDbm, SumLineKind.Subtotal));
        Part("chain up to the receiver", sum.ChainGainDb);

        void Part(string what, double value) => lines.Add(new SumLine(what, value, SumLineKind.Part));

        void UnlessZero(string what, double value)
        {
            if (Math.Abs(value) >= 0.005)
            {
                Part(what, value);
            }
        }
    }
}
