using System.Text.Json;
using Spurless.Reports.Text;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>
/// Writes a study as JSON, format <c>spurless-study/1</c>: numbers in SI with the unit in the name, levels with six decimals, null where unknown.
/// </summary>
public static class StudyJson
{
    /// <summary>Writes the whole study to a stream, in UTF-8 with a final line feed.</summary>
    public static void Write(StudyResult study, Stream stream)
    {
        JsonText.Write(stream, json =>
        {
            json.WriteString("format", "spurless-study/1");
            json.WriteString("site", study.Site);
            json.WriteStartArray("inputs");
            foreach (InputFile input in study.Inputs)
            {
                json.WriteStartObject();
                json.WriteString("file", input.Name);
                json.WriteString("sha256", input.Sha256);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            JsonText.Strings(json, "read_not_used_yet", study.KeysNotUsedYet);
            json.WriteStartArray("receivers");
            foreach (ReceiverFindings receiver in study.Receivers)
            {
                Write(json, receiver);
            }

            json.WriteEndArray();
        });
    }

    private static void Write(Utf8JsonWriter json, ReceiverFindings receiver)
    {
        json.WriteStartObject();
        json.WriteString("name", receiver.Name);
        json.WriteNumber("frequency_hz", receiver.FrequencyHz);
        json.WriteNumber("channel_hz", receiver.ChannelHz);
        json.WriteNumber("if_bandwidth_hz", receiver.IfBandwidthHz);
        JsonText.Decibels(json, "noise_floor_dbm", receiver.NoiseFloorDbm);
        json.WriteStartArray("carriers");
        foreach (CarrierFinding carrier in receiver.Carriers)
        {
            json.WriteStartObject();
            json.WriteString("emitter", carrier.Emitter);
            json.WriteNumber("frequency_hz", carrier.FrequencyHz);
            JsonText.Decibels(json, "level_at_antenna_dbm", carrier.LevelAtAntennaDbm);
            JsonText.Decibels(json, "level_at_receiver_dbm", carrier.LevelAtReceiverDbm);
            JsonText.Decibels(json, "filter_rejection_db", carrier.Rejection?.NominalDb);
            JsonText.Decibels(json, "filter_rejection_low_db", carrier.Rejection?.LowDb);
            JsonText.Decibels(json, "filter_rejection_high_db", carrier.Rejection?.HighDb);
            json.WriteString("how_known", carrier.HowKnown);
            JsonText.Strings(json, "assumed", carrier.Assumed);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("products");
        foreach (ProductFinding product in receiver.Products)
        {
            Write(json, product);
        }

        json.WriteEndArray();
        json.WriteNumber("products_left_out", receiver.ProductsLeftOut);
        if (receiver.ProductsLeftOutForecast)
        {
            json.WriteBoolean("products_left_out_forecast", true);
        }

        json.WriteNumber("harmful", receiver.Harmful);
        json.WriteNumber("marginal", receiver.Marginal);
        JsonText.Decibels(json, "sum_over_noise_db", receiver.SumOverNoiseDb);
        json.WriteStartArray("other_causes");
        foreach (OtherCause cause in receiver.OtherCauses)
        {
            json.WriteStartObject();
            json.WriteString("cause", cause.Cause);
            json.WriteString("emitter", cause.Emitter);
            JsonText.Decibels(json, "level_dbm", cause.LevelDbm);
            JsonText.Decibels(json, "over_noise_db", cause.OverNoiseDb);
            JsonText.Decibels(json, "desense_db", cause.DesenseDb);
            json.WriteString("verdict", StudyNames.Of(cause.Verdict));
            json.WriteString("says", cause.Says);
            json.WriteString("cured_at", StudyNames.Of(cause.Cure));
            JsonText.Strings(json, "assumed", cause.Assumed);
            JsonText.Strings(json, "missing", cause.Missing);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        JsonText.Strings(json, "not_computed", receiver.NotComputed);
        if (receiver.WithoutFilter is { } without)
        {
            json.WriteStartObject("without_filter");
            json.WriteNumber("harmful", without.Harmful);
            json.WriteNumber("marginal", without.Marginal);
            JsonText.Decibels(json, "sum_over_noise_db", without.SumOverNoiseDb);
            JsonText.Decibels(json, "noise_floor_dbm", without.NoiseFloorDbm);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("without_filter");
        }

        JsonText.Decibels(json, "wanted_loss_db", receiver.WantedLossDb);
        JsonText.Strings(json, "assumed", receiver.Assumed);
        json.WriteEndObject();
    }

    internal static void Write(Utf8JsonWriter json, ProductFinding product)
    {
        json.WriteStartObject();
        json.WriteStartArray("terms");
        foreach (Term term in product.Terms)
        {
            json.WriteStartObject();
            json.WriteString("emitter", term.Name);
            json.WriteNumber("coefficient", term.Coefficient);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("order", product.Order);
        json.WriteNumber("frequency_hz", product.FrequencyHz);
        json.WriteNumber("offset_hz", product.OffsetHz);
        json.WriteNumber("bandwidth_hz", product.BandwidthHz);
        json.WriteString("made_in", product.MadeIn);
        json.WriteString("mechanism", StudyNames.Of(product.Mechanism));
        JsonText.Decibels(json, "level_dbm", product.LevelDbm);
        JsonText.Decibels(json, "level_worst_dbm", product.LevelWorstDbm);
        JsonText.Decibels(json, "in_channel_level_dbm", product.InChannelLevelDbm);
        JsonText.Decibels(json, "over_noise_db", product.OverNoiseDb);
        JsonText.Decibels(json, "sigma_db", product.SigmaDb);
        JsonText.Decibels(json, "next_degree_error_db", product.NextDegreeErrorDb);
        json.WriteString("verdict", StudyNames.Of(product.Verdict));
        if (product.Effects is { } effects)
        {
            json.WriteStartObject("effects");
            json.WriteBoolean("opens_squelch", effects.OpensSquelch);
            JsonText.Decibels(json, "noise_rise_db", effects.NoiseRiseDb);
            if (effects.SpoilsWanted is { } spoils)
            {
                json.WriteBoolean("spoils_wanted", spoils);
            }
            else
            {
                json.WriteNull("spoils_wanted");
            }

            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("effects");
        }

        json.WriteString("chance", product.Chance);
        json.WriteBoolean("keeps_itself_up", product.KeepsItselfUp);
        json.WriteBoolean("on_carrier_of_its_own", product.OnCarrierOfItsOwn);
        json.WriteNumber("on_together", product.OnTogether);
        json.WriteString("hear", product.Hear);
        Write(json, product.Sum);
        JsonText.Strings(json, "assumed", product.Assumed);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, TransmitterSum? sum)
    {
        if (sum is null)
        {
            json.WriteNull("transmitter_sum");
            return;
        }

        json.WriteStartObject("transmitter_sum");
        JsonText.Decibels(json, "power_dbm", sum.PowerDbm);
        json.WriteStartArray("incoming");
        foreach (IncomingCarrier incoming in sum.Incoming)
        {
            json.WriteStartObject();
            json.WriteString("emitter", incoming.Emitter);
            json.WriteNumber("times", incoming.Times);
            JsonText.Decibels(json, "power_dbm", incoming.PowerDbm);
            JsonText.Decibels(json, "coupling_db", incoming.CouplingDb);
            JsonText.Decibels(json, "output_filter_db", incoming.OutputFilterDb);
            JsonText.Decibels(json, "isolator_db", incoming.IsolatorDb);
            JsonText.Decibels(json, "arrives_dbm", incoming.ArrivesDbm);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        JsonText.Decibels(json, "turn_round_loss_db", sum.TurnRoundLossDb);
        JsonText.Decibels(json, "output_filter_db", sum.OutputFilterDb);
        JsonText.Decibels(json, "leaves_dbm", sum.LeavesDbm);
        JsonText.Decibels(json, "path_db", sum.PathDb);
        JsonText.Decibels(json, "level_at_antenna_dbm", sum.AtAntennaDbm);
        JsonText.Decibels(json, "chain_gain_db", sum.ChainGainDb);
        json.WriteEndObject();
    }
}
