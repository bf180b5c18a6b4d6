using Spurless.Mixing.Measurements;
using Spurless.Radio.Noise;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Receivers;

/// <summary>The noise of a receiver from its sensitivities and noise figures.</summary>
/// <param name="Sensitivity">Level for 12 dB SINAD in dBm, or null.</param>
/// <param name="SensitivityRead">Whether it was read.</param>
/// <param name="Noise">Noise at the input in dBm, or null.</param>
/// <param name="NoiseFigure">Noise figure in dB, or null.</param>
internal sealed record NoiseReadings(
    MeasuredFigure? Sensitivity, bool SensitivityRead, MeasuredFigure? Noise, MeasuredFigure? NoiseFigure)
{
    public static NoiseReadings Of(ReceiverMeasurements document, ReadingSources sources, List<ReceiverWarning> warnings)
    {
        List<(SensitivityReading Entry, MeasuredFigure Noise)> noises = [];
        List<MeasuredFigure> sensitivities = [];
        double carrierToNoise = document.CarrierToNoiseDb;
        double floor = ThermalNoise.FloorDbm(document.IfBandwidthHz, 0);
        foreach (SensitivityReading entry in document.Measured.OfType<SensitivityReading>())
        {
            if (entry.Level is { } level)
            {
                MeasuredFigure read = MeasuredFigure.Read(level.Dbm, sources.Next(), entry.SigmaDb);
                sensitivities.Add(read);
                noises.Add((entry, read.Plus(-carrierToNoise)));
            }
            else if (entry.NoiseFigure is { } figure)
            {
                noises.Add((entry, MeasuredFigure.Read(figure.Decibels, sources.Next(), entry.SigmaDb).Plus(floor)));
            }
        }

        if (noises.Count == 0)
        {
            return new NoiseReadings(null, false, null, null);
        }

        WeightedMean mean = WeightedMean.Of([.. noises.Select(static n => n.Noise)]);
        if (mean.Disagree is { } apart)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.NoiseDisagrees)
            {
                Entry = noises[apart.First].Entry,
                Other = noises[apart.Second].Entry,
                Value = apart.ApartDb,
                Against = apart.SigmaDb,
            });
        }

        MeasuredFigure noiseFigure = mean.Figure.Plus(-floor);
        if (noiseFigure.Value < 0)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.NoiseFigureBelowZero) { Value = noiseFigure.Value });
        }

        bool read12 = sensitivities.Count > 0;
        MeasuredFigure sensitivity = read12 ? WeightedMean.Of(sensitivities).Figure : mean.Figure.Plus(carrierToNoise);
        return new NoiseReadings(sensitivity, read12, mean.Figure, noiseFigure);
    }
}
