using System.Globalization;
using Spurless.Files.Diagnostics;
using Spurless.Mixing.Evidence;
using Spurless.Radio.Quantities;

namespace Spurless.Sites.Documents;

/// <summary>Refuses readings of a size that no receiver gives.</summary>
internal static class EvidenceSizes
{
    private const double MostPadDb = 100;
    private const double MostSigmaDb = 20;

    /// <summary>Checks an entry; what was not written, or is wrong already, is left alone.</summary>
    public static void Check(EvidenceEntry evidence, SiteDocument site, DiagnosticBag diagnostics)
    {
        HashSet<(int Line, int Column)> wrong =
        [
            .. diagnostics.InOrder().Where(d => d.File == evidence.Source.File).Select(static d => (d.Line, d.Column)),
        ];
        bool sound = evidence switch
        {
            OffsetMeasured => Written("measured"),
            FilterTest => Written("over_noise") && Written("fall"),
            AttenuatorTest => Written("over_noise") && Written("fall") && Written("inserted"),
            EmitterReduced => Written("over_noise") && Written("fall") && Written("by"),
            _ => false,
        };
        if (sound)
        {
            OfSound(evidence, site, diagnostics);
        }

        bool Written(string field) => evidence.Source.Fields.TryGetValue(field, out FieldPlace place)
            && !wrong.Contains((place.Value.Line, place.Value.Column));
    }

    private static void OfSound(EvidenceEntry evidence, SiteDocument site, DiagnosticBag diagnostics)
    {
        switch (evidence)
        {
            case AttenuatorTest t:
                AtMost(t.Source, "inserted", t.Inserted, MostPadDb, "write the pad's attenuation, such as 3 dB", diagnostics);
                Fall(t.Source, t.OverNoise, t.Fall, t.PlusMinus, diagnostics);
                break;
            case FilterTest t:
                Fall(t.Source, t.OverNoise, t.Fall, t.PlusMinus, diagnostics);
                break;
            case EmitterReduced t:
                AtMost(t.Source, "by", t.By, MostPadDb, "write 'by: off' where it was switched off", diagnostics);
                Fall(t.Source, t.OverNoise, t.Fall, t.PlusMinus, diagnostics);
                break;
            case OffsetMeasured t:
                if (site.Receivers.FirstOrDefault(r => r.Name == t.Receiver) is { } receiver
                    && receiver.Channel.Hertz > 0 && Math.Abs(t.Measured.Hertz) > receiver.Channel.Hertz)
                {
                    t.Source.Error(
                        diagnostics, "measured", $"an offset of {t.Measured} is outside the channel of {receiver.Channel}",
                        "write how far what is heard lies from the channel's centre, such as 180 Hz");
                }

                break;
        }
    }

    private static void Fall(EntrySource source, Decibels over, Decibels fall, Decibels? plusMinus, DiagnosticBag diagnostics)
    {
        AtMost(source, "plus_minus", plusMinus, MostSigmaDb, "write one sigma of the reading, such as 1 dB", diagnostics);
        if (over.Value is < EvidenceCase.LeastOverNoiseDb or > EvidenceCase.MostOverNoiseDb)
        {
            source.Error(
                diagnostics, "over_noise", $"no reading stands {over} over noise",
                "write what was read over the receiver's noise, -10 dB to 80 dB");
            return;
        }

        double most = FallLaw.MostDb(over.Value);
        if (fall.Value > most)
        {
            source.Error(
                diagnostics, "fall",
                string.Create(CultureInfo.InvariantCulture, $"a reading {over} over noise cannot fall by {fall}: in the noise it ends"),
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"write at most {Math.Floor(most * 10) / 10:0.#} dB, the fall down to the noise, or correct over_noise"));
        }
        else if (over.Value - fall.Value > EvidenceCase.MostOverNoiseDb)
        {
            source.Error(
                diagnostics, "fall", $"a fall of {fall} leaves a reading that no receiver gives",
                "write by how many dB it fell, below 0 where it rose");
        }
    }

    private static void AtMost(
        EntrySource source, string field, Decibels? value, double most, string remedy, DiagnosticBag diagnostics)
    {
        if (value is { } given && given.Value > most)
        {
            source.Error(
                diagnostics, field, string.Create(CultureInfo.InvariantCulture, $"'{given}' is over {most:0} dB"), remedy);
        }
    }
}
