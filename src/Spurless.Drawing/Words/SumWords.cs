using System.Globalization;
using Spurless.Sites.Studies;

namespace Spurless.Drawing.Words;

/// <summary>What the lines of a product's sum are called.</summary>
internal static class SumWords
{
    /// <summary>The line in words, without its value.</summary>
    public static string What(SumLine line) => line.Part switch
    {
        SumPart.CarrierAtStage =>
            line.Times == 1 ? line.Name ?? "" : FormattableString.Invariant($"{line.Name}, {line.Times} times {Tenths(line.Each)} dBm"),
        SumPart.Intercept =>
            FormattableString.Invariant($"intercept of order {line.Times + 1}, {line.Times} times {Tenths(line.Each)} dBm taken away"),
        SumPart.Factor => "factor of the mixture against two equal carriers",
        SumPart.NoiseLikeAndFurtherStages => "noise-like carriers and further stages",
        SumPart.Saturation => "what that stage cannot deliver of it",
        SumPart.GainToReceiverInput => "gain from there to the receiver's input",
        SumPart.OutputPower => $"{line.Name}, output power",
        SumPart.Coupling => $"coupling to {line.Name}",
        SumPart.OutputFilterInward => $"output filter of {line.Name}, inward",
        SumPart.Isolator => $"isolator of {line.Name}",
        SumPart.ArrivesAtStage => "arrives at its output stage",
        SumPart.UnderPower or SumPart.UnderPowerAgain => string.Create(
            CultureInfo.InvariantCulture,
            $"{line.Name}{(line.Part == SumPart.UnderPowerAgain ? " again," : ",")}{Often(line.Times)} "
                + $"{Tenths(line.Each)} dB under the transmitter's power"),
        SumPart.TurnRoundLoss => "turn-round loss",
        SumPart.OutputFilterOutward => $"output filter of {line.Name}, on your channel",
        SumPart.LeavesTransmitter => "leaves the transmitter",
        SumPart.Path => "path to your antenna connector",
        SumPart.AtAntenna => "at the antenna connector",
        SumPart.Chain => "chain up to the receiver",
        SumPart.AtReceiverInput => "at the receiver's input",
        SumPart.ShareInChannel => "share inside the channel",
        SumPart.InChannel => "in your channel",
        SumPart.NoiseFloor => "noise floor",
        SumPart.LeftOver => PrintedSum.LeftOver,
        _ => "over noise",
    };

    private static string Tenths(double db) => Figures.Db(db, Typography.Plain);

    private static string Often(int times) => times == 1 ? "" : FormattableString.Invariant($" {times} times");
}
