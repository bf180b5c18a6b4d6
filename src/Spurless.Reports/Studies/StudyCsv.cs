using System.Globalization;
using System.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>Writes a study's products as CSV, one row a product, null as an empty cell.</summary>
public static class StudyCsv
{
    private const string Head =
        "receiver,verdict,in_channel_level_dbm,over_noise_db,order,frequency_hz,offset_hz,bandwidth_hz,mechanism,made_in," +
        "level_dbm,level_worst_dbm,sigma_db,next_degree_error_db,mixture,emitters";

    /// <summary>Writes the head and all receivers' products, with line feeds.</summary>
    public static void Write(StudyResult study, TextWriter output)
    {
        output.Write(Head);
        output.Write('\n');
        foreach (ReceiverFindings receiver in study.Receivers)
        {
            foreach (ProductFinding product in receiver.Products)
            {
                string[] cells =
                [
                    receiver.Name,
                    StudyNames.Of(product.Verdict),
                    Number(product.InChannelLevelDbm),
                    Number(product.OverNoiseDb),
                    product.Order.ToString(CultureInfo.InvariantCulture),
                    product.FrequencyHz.ToString(CultureInfo.InvariantCulture),
                    product.OffsetHz.ToString(CultureInfo.InvariantCulture),
                    product.BandwidthHz.ToString(CultureInfo.InvariantCulture),
                    StudyNames.Of(product.Mechanism),
                    product.MadeIn,
                    Number(product.LevelDbm),
                    Number(product.LevelWorstDbm),
                    Number(product.SigmaDb),
                    Number(product.NextDegreeErrorDb),
                    Words.StudyWords.Mixture(product, Words.Typography.Plain),
                    string.Join("; ", product.Terms.Select(static t => t.Name)),
                ];
                output.Write(string.Join(',', cells.Select(CsvCell.Quote)));
                output.Write('\n');
            }
        }
    }

    private static string Number(double? value) => value is { } v && double.IsFinite(v) ? v.ToString("F6", CultureInfo.InvariantCulture) : "";
}
