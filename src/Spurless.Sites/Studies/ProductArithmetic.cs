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
    /// <summary>
    /// The sum of a product made in the receiver or an amplifier of its chain: <c>sum |k_i| P_i - (n-1) IIP_n + 20 lg(C_k/C_ref)</c>, referred to the
    /// receiver's input, share in the channel, noise.
    /// </summary>
    /// <param name="receiver">The findings it belongs to.</param>
    /// <param name="product">One of their products.</param>
    /// <returns>The lines; empty for a product without a level or made in a transmitter.</returns>
    public static IReadOnlyList<SumLine> Of(ReceiverFindings receiver, ProductFinding product)
    {
        if (product.Mechanism != Mechanism.Receiver || product.LevelDbm is not { } level || product.InChannelLevelDbm is not { } inChannel)
        {
            return [];
        }

        int stage = 0;
        while (receiver.Chain.ActiveStages[stage].Name != product.MadeIn)
        {
            stage++;
        }

        Intercepts intercepts = receiver.Chain.ActiveStages[stage].Intercepts;
        List<SumLine> lines = [];
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
        lines.Add(new SumLine("at the receiver's input", level, SumLineKind.Subtotal));
        lines.Add(new SumLine("share inside the channel", inChannel - level, SumLineKind.Part));
        lines.Add(new SumLine("in your channel", inChannel, SumLineKind.Subtotal));
        lines.Add(new SumLine("noise floor", receiver.NoiseFloorDbm, SumLineKind.Reference));
        lines.Add(new SumLine("over noise", inChannel - receiver.NoiseFloorDbm, SumLineKind.Result));
        return lines;

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
}
