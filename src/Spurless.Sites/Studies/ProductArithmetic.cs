using Spurless.Mixing.Levels;

namespace Spurless.Sites.Studies;

/// <summary>The arithmetic of a product's level, line by line, as it adds up.</summary>
public static class ProductArithmetic
{
    /// <summary>
    /// The sum of a product. Made in the receiver or an amplifier of its chain: <c>sum |k_i| P_i - (n-1) IIP_n + 20 lg(C_k/C_ref)</c>,
    /// referred to the receiver's input. Made in a transmitter: what arrives there, turn-round loss, output filter, path, chain. Then share
    /// in the channel and noise.
    /// </summary>
    /// <param name="receiver">The findings it belongs to.</param>
    /// <param name="product">One of their products.</param>
    /// <returns>The lines; empty for a product without a level. Parts down to a subtotal add up to it, the subtotal before them counted
    /// in.</returns>
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

        lines.Add(new SumLine(SumPart.AtReceiverInput, level, SumLineKind.Subtotal));
        lines.Add(new SumLine(SumPart.ShareInChannel, inChannel - level, SumLineKind.Part));
        lines.Add(new SumLine(SumPart.InChannel, inChannel, SumLineKind.Subtotal));
        lines.Add(new SumLine(SumPart.NoiseFloor, receiver.NoiseFloorDbm, SumLineKind.Reference));
        lines.Add(new SumLine(SumPart.OverNoise, inChannel - receiver.NoiseFloorDbm, SumLineKind.Result));
        return lines;
    }

    private static void InReceiver(ReceiverFindings receiver, ProductFinding product, double level, List<SumLine> lines)
    {
        int stage = product.Made.Stage ?? throw new InvalidOperationException("a product of the receiver is made in one of its stages");
        Intercepts intercepts = receiver.Chain.ActiveStages[stage].Intercepts;
        double sum = 0;
        foreach (Term term in product.Terms)
        {
            int times = Math.Abs(term.Coefficient);
            double arrives = (receiver.Carriers[term.Emitter].LevelAtAntennaDbm ?? 0) + receiver.Chain.GainToStageDb(
                stage, term.FrequencyHz);
            Add(new SumLine(SumPart.CarrierAtStage, times * arrives, SumLineKind.Part) { Name = term.Name, Times = times, Each = arrives });
        }

        double intercept = intercepts.Dbm(product.Order);
        Add(
            new SumLine(SumPart.Intercept, -(product.Order - 1) * intercept, SumLineKind.Part)
            {
                Times = product.Order - 1,
                Each = intercept,
            });
        double factor = 20 * Math.Log10(
            (double)Multinomial.Coefficient([.. product.Terms.Select(static t => t.Coefficient)]) / Multinomial.Reference(product.Order));
        AddUnlessZero(SumPart.Factor, factor);
        AddUnlessZero(
            product.Saturated ? SumPart.Saturation : SumPart.NoiseLikeAndFurtherStages,
            level - (sum + receiver.Chain.ReferralDb(stage, product.FrequencyHz)));
        AddUnlessZero(SumPart.GainToReceiverInput, receiver.Chain.ReferralDb(stage, product.FrequencyHz));

        void Add(SumLine line)
        {
            sum += line.Value;
            lines.Add(line);
        }

        void AddUnlessZero(SumPart part, double value)
        {
            if (Math.Abs(value) >= 0.005)
            {
                Add(new SumLine(part, value, SumLineKind.Part));
            }
        }
    }

    /// <summary>
    /// <c>P_A - sum |k_i| (P_A - P_i,A) - T - F</c>, begun with the strongest that arrives taken once: <c>P_1,A</c>; every further time one
    /// takes part it costs what it lies under the transmitter's own power.
    /// </summary>
    private static void InTransmitter(TransmitterSum sum, List<SumLine> lines)
    {
        IncomingCarrier first = sum.Incoming.MaxBy(static i => i.ArrivesDbm)!;
        Part(SumPart.OutputPower, first.PowerDbm, first.Emitter);
        Part(SumPart.Coupling, -first.CouplingDb, sum.Transmitter);
        UnlessZero(SumPart.OutputFilterInward, -first.OutputFilterDb);
        UnlessZero(SumPart.Isolator, -first.IsolatorDb);
        lines.Add(new SumLine(SumPart.ArrivesAtStage, first.ArrivesDbm, SumLineKind.Subtotal));
        foreach (IncomingCarrier incoming in sum.Incoming)
        {
            int more = incoming == first ? incoming.Times - 1 : incoming.Times;
            double under = sum.PowerDbm - incoming.ArrivesDbm;
            if (more > 0)
            {
                SumPart part = incoming == first ? SumPart.UnderPowerAgain : SumPart.UnderPower;
                lines.Add(new SumLine(part, -more * under, SumLineKind.Part) { Name = incoming.Emitter, Times = more, Each = under });
            }
        }

        Part(SumPart.TurnRoundLoss, -sum.TurnRoundLossDb);
        UnlessZero(SumPart.OutputFilterOutward, -sum.OutputFilterDb);
        lines.Add(new SumLine(SumPart.LeavesTransmitter, sum.LeavesDbm, SumLineKind.Subtotal));
        Part(SumPart.Path, -sum.PathDb);
        lines.Add(new SumLine(SumPart.AtAntenna, sum.AtAntennaDbm, SumLineKind.Subtotal));
        Part(SumPart.Chain, sum.ChainGainDb);

        void Part(SumPart part, double value, string? name = null) => lines.Add(new SumLine(part, value, SumLineKind.Part) { Name = name });

        void UnlessZero(SumPart part, double value)
        {
            if (Math.Abs(value) >= 0.005)
            {
                Part(part, value, sum.Transmitter);
            }
        }
    }
}
