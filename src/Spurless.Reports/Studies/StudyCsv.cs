using System.Globalization;
using Spurless.Drawing.Words;
using Spurless.Reports.Locating;
using Spurless.Reports.Text;
using Spurless.Sites.Locating;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Writes a study's products as CSV, one row a product, null as an empty cell.</summary>
public static class StudyCsv
{
    private const string Head =
        "receiver,verdict,in_channel_level_dbm,over_noise_db,order,frequency_hz,offset_hz,bandwidth_hz,mechanism,made_in," +
        "level_dbm,level_worst_dbm,sigma_db,next_degree_error_db,mixture,emitters";

    /// <summary>Writes the head and all receivers' products, with line feeds.</summary>
    /// <param name="study">The study.</param>
    /// <param name="output">Where to.</param>
    /// <param name="located">What the site's evidence says: a further column, <c>posterior</c>; null where there is none.</param>
    public static void Write(StudyResult study, TextWriter output, LocateAnswer? located = null)
    {
        bool evidence = located?.Receivers.Any(static r => r.HasEvidence) == true;
        output.Write(evidence ? Head + ",posterior" : Head);
        output.Write('\n');
        for (int r = 0; r < study.Receivers.Count; r++)
        {
            ReceiverFindings receiver = study.Receivers[r];
            LocatedReceiver? here = LocateWords.WithEvidence(located, r);
            foreach (ProductFinding product in receiver.Products)
            {
                string[] cells =
                [
                    receiver.Name,
                    StudyNames.Of(product.Verdict),
                    CsvFigure.Of(product.InChannelLevelDbm),
                    CsvFigure.Of(product.OverNoiseDb),
                    product.Order.ToString(CultureInfo.InvariantCulture),
                    product.FrequencyHz.ToString(CultureInfo.InvariantCulture),
                    product.OffsetHz.ToString(CultureInfo.InvariantCulture),
                    product.BandwidthHz.ToString(CultureInfo.InvariantCulture),
                    StudyNames.Of(product.Mechanism),
                    product.MadeIn,
                    CsvFigure.Of(product.LevelDbm),
                    CsvFigure.Of(product.LevelWorstDbm),
                    CsvFigure.Of(product.SigmaDb),
                    CsvFigure.Of(product.NextDegreeErrorDb),
                    StudyWords.Mixture(product, Typography.Plain),
                    string.Join("; ", product.Terms.Select(static t => t.Name)),
                    .. evidence ? [CsvFigure.Of(here?.Of(product))] : Array.Empty<string>(),
                ];
                output.Write(string.Join(',', cells.Select(CsvQuoting.Quote)));
                output.Write('\n');
            }
        }
    }
}
