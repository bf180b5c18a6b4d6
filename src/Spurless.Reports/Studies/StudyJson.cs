using System.Text.Json;
using Spurless.Drawing.Words;
using Spurless.Reports.Locating;
using Spurless.Reports.Text;
using Spurless.Sites.Locating;
using Spurless.Sites.Studies;

namespace Spurless.Reports.Studies;

/// <summary>
/// Writes a study as JSON, format <c>spurless-study/1</c>: numbers in SI with the unit in the name, levels with six decimals, null where
/// unknown.
/// </summary>
public static class StudyJson
{
    /// <summary>Writes the whole study to a stream, in UTF-8 with a final line feed.</summary>
    /// <param name="study">The study.</param>
    /// <param name="stream">Where to.</param>
    /// <param name="located">What the site's evidence says; null where there is none.</param>
    public static void Write(StudyResult study, Stream stream, LocateAnswer? located = null)
    {
        JsonText.Write(stream, json =>
        {
            json.WriteString("format", "spurless-study/1");
            json.WriteString("site", study.Site);
            JsonText.Objects(json, "inputs", study.Inputs, input =>
            {
                json.WriteString("file", input.Name);
                json.WriteString("sha256", input.Sha256);
            });
            JsonText.Strings(json, "read_not_used_yet", study.KeysNotUsedYet);
            json.WriteStartArray("receivers");
            for (int r = 0; r < study.Receivers.Count; r++)
            {
                Write(json, study.Receivers[r], LocateWords.WithEvidence(located, r));
            }

            json.WriteEndArray();
        });
    }

    private static void Write(Utf8JsonWriter json, ReceiverFindings receiver, LocatedReceiver? located)
    {
        json.WriteStartObject();
        json.WriteString("name", receiver.Name);
        json.WriteNumber("frequency_hz", receiver.FrequencyHz);
        json.WriteNumber("channel_hz", receiver.ChannelHz);
        json.WriteNumber("if_bandwidth_hz", receiver.IfBandwidthHz);
        JsonText.Decibels(json, "noise_floor_dbm", receiver.NoiseFloorDbm);
        JsonText.Decibels(json, "sensitivity_at_antenna_dbm", receiver.SensitivityAtAntennaDbm);
        JsonText.Objects(json, "carriers", receiver.Carriers, carrier =>
        {
            json.WriteString("emitter", carrier.Emitter);
            json.WriteNumber("frequency_hz", carrier.FrequencyHz);
            JsonText.Decibels(json, "level_at_antenna_dbm", carrier.LevelAtAntennaDbm);
            JsonText.Decibels(json, "level_at_receiver_dbm", carrier.LevelAtReceiverDbm);
            JsonText.Decibels(json, "filter_rejection_db", carrier.Rejection?.NominalDb);
            JsonText.Decibels(json, "filter_rejection_low_db", carrier.Rejection?.LowDb);
            JsonText.Decibels(json, "filter_rejection_high_db", carrier.Rejection?.HighDb);
            json.WriteString("how_known", LevelNoteWords.Of(carrier.HowKnown));
            JsonText.Strings(json, "assumed", LevelNoteWords.Of(carrier.Assumed));
        });
        json.WriteStartArray("products");
        foreach (ProductFinding product in receiver.Products)
        {
            Write(json, product, located);
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
        json.WriteBoolean("sum_leaves_out_exclusive", receiver.SumOfSome);
        json.WriteBoolean("sum_is_bound", receiver.SumIsBound);
        JsonText.Objects(json, "other_causes", receiver.OtherCauses, cause => Write(json, cause));
        Write(json, receiver.Limits);
        JsonText.Strings(json, "not_computed", [.. receiver.NotComputed.Select(NotComputedWords.Of)]);
        if (receiver.WithoutFilter is { } without)
        {
            json.WriteStartObject("without_filter");
            json.WriteNumber("harmful", without.Harmful);
            json.WriteNumber("marginal", without.Marginal);
            JsonText.Decibels(json, "sum_over_noise_db", without.SumOverNoiseDb);
            JsonText.Decibels(json, "noise_floor_dbm", without.NoiseFloorDbm);
            JsonText.Decibels(json, "sensitivity_at_antenna_dbm", without.SensitivityAtAntennaDbm);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("without_filter");
        }

        JsonText.Decibels(json, "wanted_loss_db", receiver.WantedLossDb);
        JsonText.Strings(json, "assumed", receiver.Assumed.Select(ReceiverAssumptionWords.Of));
        json.WriteEndObject();
    }

    /// <summary>Writes the members of a cause that is not a product.</summary>
    internal static void Write(Utf8JsonWriter json, OtherCause cause)
    {
        json.WriteString("cause", cause.Cause);
        json.WriteString("emitter", cause.Emitter);
        JsonText.Decibels(json, "level_dbm", cause.LevelDbm);
        JsonText.Decibels(json, "over_noise_db", cause.OverNoiseDb);
        JsonText.Decibels(json, "at_most_dbm", cause.AtMostDbm);
        JsonText.Decibels(json, "at_most_over_noise_db", cause.AtMostOverNoiseDb);
        JsonText.Decibels(json, "desense_db", cause.DesenseDb);
        json.WriteString("verdict", StudyNames.Of(cause.Verdict));
        json.WriteString("says", CauseWords.Says(cause));
        json.WriteString("cured_at", StudyNames.Of(cause.Cure));
        JsonText.Strings(json, "assumed", [.. AssumptionWords.Of(cause.Assumed)]);
        JsonText.Strings(json, "missing", [.. cause.Missing.Select(AssumptionWords.Missing)]);
    }

    internal static void Write(Utf8JsonWriter json, ProductFinding product, LocatedReceiver? located = null)
    {
        json.WriteStartObject();
        JsonText.TermsOf(json, product.Terms);
        json.WriteNumber("order", product.Order);
        json.WriteNumber("frequency_hz", product.FrequencyHz);
        json.WriteNumber("offset_hz", product.OffsetHz);
        json.WriteNumber("bandwidth_hz", product.BandwidthHz);
        json.WriteString("made_in", product.MadeIn);
        json.WriteString("mechanism", StudyNames.Of(product.Mechanism));
        JsonText.Decibels(json, "level_dbm", product.LevelDbm);
        Write(json, product.Places);
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

        json.WriteString("heard", ImpactWords.Fixed(product.Impact));
        JsonText.Decibels(json, "chance", product.Chance);
        json.WriteString("chance_word", HeardWords.Chance(product.Chance));
        if (located is not null)
        {
            JsonText.Number(json, "posterior", located.Of(product) is { } posterior ? Math.Round(posterior, 9) : null);
        }

        json.WriteBoolean("saturated", product.Saturated);
        json.WriteBoolean("trustworthy", product.Trustworthy);
        json.WriteBoolean("keeps_itself_up", product.KeepsItselfUp);
        json.WriteBoolean("on_carrier_of_its_own", product.OnCarrierOfItsOwn);
        json.WriteNumber("on_share", product.OnTogether);
        json.WriteString("hear", HeardWords.Of(product));
        Write(json, product.Sum);
        JsonText.Strings(json, "assumed", [.. AssumptionWords.Of(product.Assumed)]);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, SearchLimits? limits)
    {
        if (limits is null)
        {
            return;
        }

        json.WriteStartObject("search");
        json.WriteNumber("lowest_order", limits.Orders.Lowest);
        json.WriteNumber("highest_order", limits.Orders.Highest);
        json.WriteNumber("signals", limits.Signals);
        JsonText.Decibels(json, "floor_dbm", limits.FloorDbm);
        json.WriteBoolean("selectivity_stated", limits.SelectivityStated);
        if (limits.More is { } more)
        {
            json.WriteStartObject("more_signals");
            json.WriteNumber("signals", more.Signals);
            json.WriteNumber("highest_order", more.HighestOrder);
            json.WriteNumber("harmful", more.Harmful);
            JsonText.Decibels(json, "worst_over_noise_db", more.WorstOverNoiseDb);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("more_signals");
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, IReadOnlyList<MixingPlace> places)
    {
        JsonText.Objects(json, "places", places, place =>
        {
            json.WriteString("mechanism", StudyNames.Of(place.Mechanism));
            json.WriteString("made_in", place.Name);
            JsonText.Decibels(json, "level_dbm", place.LevelDbm);
            JsonText.Decibels(json, "sigma_db", place.SigmaDb);
        });
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
        JsonText.Objects(json, "incoming", sum.Incoming, incoming =>
        {
            json.WriteString("emitter", incoming.Emitter);
            json.WriteNumber("times", incoming.Times);
            JsonText.Decibels(json, "power_dbm", incoming.PowerDbm);
            JsonText.Decibels(json, "coupling_db", incoming.CouplingDb);
            JsonText.Decibels(json, "output_filter_db", incoming.OutputFilterDb);
            JsonText.Decibels(json, "isolator_db", incoming.IsolatorDb);
            JsonText.Decibels(json, "arrives_dbm", incoming.ArrivesDbm);
        });
        JsonText.Decibels(json, "turn_round_loss_db", sum.TurnRoundLossDb);
        JsonText.Decibels(json, "output_filter_db", sum.OutputFilterDb);
        JsonText.Decibels(json, "leaves_dbm", sum.LeavesDbm);
        JsonText.Decibels(json, "path_db", sum.PathDb);
        JsonText.Decibels(json, "level_at_antenna_dbm", sum.AtAntennaDbm);
        JsonText.Decibels(json, "chain_gain_db", sum.ChainGainDb);
        json.WriteEndObject();
    }
}
