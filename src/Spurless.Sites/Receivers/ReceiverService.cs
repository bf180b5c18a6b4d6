using Spurless.Mixing.Levels;
using Spurless.Mixing.Measurements;
using Spurless.Radio.Quantities;
using Spurless.Sites.Documents.Receivers;

namespace Spurless.Sites.Receivers;

/// <summary>Makes figures of a receiver's own measurements.</summary>
public static class ReceiverService
{
    // A product this far under the noise is not read by any usual means.
    private const double ReadableUnderNoiseDb = 15;

    /// <summary>Answers a question. What is missing is said in the answer.</summary>
    /// <param name="question">The question.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public static ReceiverAnswer Ask(ReceiverQuestion question, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        ReceiverMeasurements document = question.Measurements.Document;
        ReadingSources sources = new();
        List<ReceiverWarning> warnings = [];
        NoiseReadings noise = NoiseReadings.Of(document, sources, warnings);
        FrontEndLosses losses = new(question, sources);
        SiteProducts products = new(question, losses, sources, warnings);
        List<InterceptReading> readings = [];
        foreach (MeasuredEntry entry in document.Measured)
        {
            cancellationToken.ThrowIfCancellationRequested();
            InterceptReading? reading = entry switch
            {
                TwoToneReading tones => Reading(tones, document, noise.Noise, losses, sources, warnings),
                SiteProductReading product => products.Of(product, cancellationToken),
                _ => null,
            };
            if (reading is not null)
            {
                Doubts(reading, noise.Noise, losses, warnings);
                readings.Add(reading);
            }
        }

        List<InterceptFinding> intercepts = [];
        List<TonesLoss> tonesLosses = [];
        foreach (IGrouping<int, InterceptReading> order in readings.GroupBy(static r => r.Order).OrderBy(static g => g.Key))
        {
            OfOrder(order.Key, [.. order], intercepts, tonesLosses, warnings);
        }

        ReceiverAnswer answer = new()
        {
            Question = question,
            Sensitivity = noise.Sensitivity,
            SensitivityRead = noise.SensitivityRead,
            Noise = noise.Noise,
            NoiseFigure = noise.NoiseFigure,
            Intercepts = intercepts,
            Losses = tonesLosses,
            Responses =
            [
                .. document.Measured.OfType<ResponseReading>().Select(r => OffChannel(r, r.At, r.Level, noise.Sensitivity, sources)),
            ],
            Blockings =
            [
                .. document.Measured.OfType<BlockingReading>().Select(b => OffChannel(b, b.At, b.Level, noise.Sensitivity, sources)),
            ],
            Warnings = warnings,
            Unknown = [],
        };
        warnings.AddRange(
            answer.Responses.Concat(answer.Blockings).Where(static o => o.Ratio?.Value <= 0).Select(static o =>
                new ReceiverWarning(ReceiverWarningKind.UnderSensitivity)
                {
                    Entry = o.Entry,
                    FrequencyHz = o.FrequencyHz,
                    Value = o.LevelDbm,
                }));
        return answer with { Unknown = [.. Gaps(answer)] };
    }

    private static OffChannelFinding OffChannel(
        MeasuredEntry entry, Frequency at, Level level, MeasuredFigure? sensitivity, ReadingSources sources)
    {
        MeasuredFigure read = MeasuredFigure.Read(level.Dbm, sources.Next(), entry.SigmaDb);
        return new OffChannelFinding(entry, at.Hertz, level.Dbm, sensitivity is null ? null : read.Plus(sensitivity, -1));
    }

    private static InterceptReading? Reading(
        TwoToneReading entry,
        ReceiverMeasurements document,
        MeasuredFigure? noise,
        FrontEndLosses losses,
        ReadingSources sources,
        List<ReceiverWarning> warnings)
    {
        MeasuredFigure? product = entry.Product is { } read ? MeasuredFigure.Read(read.Dbm, sources.Next(), entry.SigmaDb) : noise;
        if (product is null)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.NoNoise) { Entry = entry });
            return null;
        }

        TwoToneMixture mixture = TwoToneMixture.Nearest(entry.Order, entry.First.Hertz, entry.Second.Hertz, document.Frequency.Hertz);
        if (2 * Math.Abs(mixture.FrequencyHz - document.Frequency.Hertz) > document.IfBandwidthHz)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.BesideThePassband)
            {
                Entry = entry,
                FrequencyHz = mixture.FrequencyHz - document.Frequency.Hertz,
            });
        }

        // Tones that are set as one share one error.
        MeasuredFigure first = MeasuredFigure.Read(entry.FirstLevel.Dbm, sources.Next(), entry.SigmaDb);
        MeasuredFigure second = entry.SecondLevel is { } other ? MeasuredFigure.Read(other.Dbm, sources.Next(), entry.SigmaDb) : first;
        return new InterceptReading
        {
            Entry = entry,
            Coefficients = [mixture.First, mixture.Second],
            TonesHz = [entry.First.Hertz, entry.Second.Hertz],
            Levels = [first, second],
            Product = product,
            Losses = [losses.Of(entry.First.Hertz), losses.Of(entry.Second.Hertz)],
        };
    }

    private static void Doubts(
        InterceptReading reading, MeasuredFigure? noise, FrontEndLosses losses, List<ReceiverWarning> warnings)
    {
        double intercept = reading.Intercept.Value;
        double strongest = reading.Levels.Select((l, i) => l.Value - (reading.Comparable ? reading.Losses[i]!.Value : 0)).Max();
        if (strongest > intercept - Saturation.CompressionUnderInterceptDb)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.TonesCompress)
            {
                Entry = reading.Entry,
                Order = reading.Order,
                Value = strongest,
                Against = intercept,
            });
        }

        if (reading.Entry is TwoToneReading { Product: { } product } && noise is not null
            && product.Dbm < noise.Value - ReadableUnderNoiseDb)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.ProductUnderNoise)
            {
                Entry = reading.Entry,
                Value = product.Dbm,
                Against = noise.Value,
            });
        }

        for (int i = 0; i < reading.TonesHz.Count; i++)
        {
            if (reading.Losses[i] is null && losses.Ends(reading.TonesHz[i]))
            {
                warnings.Add(new ReceiverWarning(ReceiverWarningKind.FrontEndEnds)
                {
                    Entry = reading.Entry,
                    FrequencyHz = reading.TonesHz[i],
                });
            }
        }
    }

    /// <summary>
    /// Readings whose tones' losses are known are readings of one thing. The others hold for their own tones alone; with an intercept for
    /// close tones they tell what the front end takes from theirs.
    /// </summary>
    private static void OfOrder(
        int order,
        IReadOnlyList<InterceptReading> readings,
        List<InterceptFinding> intercepts,
        List<TonesLoss> losses,
        List<ReceiverWarning> warnings)
    {
        InterceptReading[] close = [.. readings.Where(static r => r.Comparable)];
        InterceptReading[] far = [.. readings.Where(static r => !r.Comparable)];
        if (close.Length > 0)
        {
            InterceptFinding found = Mean(order, close, closeTones: true, warnings);
            intercepts.Add(found);
            foreach (InterceptReading reading in far)
            {
                TonesLoss loss = new(reading, reading.LossOfTones(found.Figure));
                losses.Add(loss);
                if (loss.Together.Value < -Disagreement.FromSigmas * loss.Together.SigmaDb)
                {
                    warnings.Add(new ReceiverWarning(ReceiverWarningKind.FrontEndAmplifies)
                    {
                        Entry = reading.Entry,
                        Value = -loss.Together.Value,
                    });
                }
            }

            return;
        }

        foreach (IGrouping<string, InterceptReading> tones in far.GroupBy(
            static r => string.Join(' ', r.TonesHz.Zip(r.Coefficients, static (f, k) => FormattableString.Invariant($"{k}x{f}")).Order(
                StringComparer.Ordinal))))
        {
            intercepts.Add(Mean(order, [.. tones], closeTones: false, warnings));
        }
    }

    private static InterceptFinding Mean(
        int order, InterceptReading[] readings, bool closeTones, List<ReceiverWarning> warnings)
    {
        WeightedMean mean = WeightedMean.Of([.. readings.Select(static r => r.Intercept)]);
        if (mean.Disagree is { } apart)
        {
            warnings.Add(new ReceiverWarning(ReceiverWarningKind.InterceptDisagrees)
            {
                Entry = readings[apart.First].Entry,
                Other = readings[apart.Second].Entry,
                Order = order,
                Value = apart.ApartDb,
                Against = apart.SigmaDb,
            });
        }

        return new InterceptFinding(order, mean.Figure, readings, closeTones);
    }

    private static IEnumerable<ReceiverGap> Gaps(ReceiverAnswer answer)
    {
        if (answer.Noise is null)
        {
            yield return ReceiverGap.Noise;
        }

        bool third = answer.Intercepts.Any(static i => i.Order == 3);
        if (!third)
        {
            yield return ReceiverGap.ThirdOrder;
        }
        else if (!answer.Intercepts.Any(static i => i.Order == 3 && i.CloseTones))
        {
            yield return ReceiverGap.CloseTones;
        }

        if (answer.Intercepts.All(static i => i.Order != 2))
        {
            yield return ReceiverGap.SecondOrder;
        }

        if (answer.Intercepts.All(static i => i.Order != 5))
        {
            yield return ReceiverGap.FifthOrder;
        }

        if (answer.Question.Measurements.FrontEnd is null && answer.Losses.Count == 0)
        {
            yield return ReceiverGap.FrontEnd;
        }

        if (answer.Responses.Count == 0)
        {
            yield return ReceiverGap.Responses;
        }

        if (answer.Blockings.Count == 0)
        {
            yield return ReceiverGap.Blocking;
        }
    }
}
