namespace Spurless.Mixing.Causes;

/// <summary>Levels of products made in the output stage of a transmitter.</summary>
public static class TransmitterProducts
{
    /// <summary>
    /// Level of one product: it leaves with <c>P_A - sum over i other than A of |k_i| (P_A - P_i,A) - T(n) - output filter</c> and arrives
    /// at the victim's antenna connector with that less the path, which is <c>reach - sum |k_i| (P_A - P_i,A) - T(n)</c>.
    /// </summary>
    /// <param name="stage">The transmitter.</param>
    /// <param name="terms">The emitters in the product with their coefficients; the transmitter's own must be among them and another
    /// too.</param>
    /// <param name="reach">How the transmitter reaches the victim on its channel.</param>
    /// <returns>The level with its sigma, or what is missing. With 33 dBm, -8 dBm coming in, T = 12 dB: 2A-B leaves with -20 dBm; with a
    /// reach of -31 dBm it arrives with -84 dBm.</returns>
    /// <remarks>Sigma: <c>s^2 = sum k_i^2 s_i^2 + s_T^2 + s_path^2</c>, i other than A; own power taken as exact. Source: physics of a
    /// stage that is linear in weak incoming signals (docs/method); tests hold the slopes to a time-domain simulation.</remarks>
    /// <exception cref="ArgumentException">The transmitter or any other emitter is not in the product, a coefficient is 0, the order is not
    /// 2 to 9.</exception>
    public static TransmitterProductLevel Level(
        TransmitterStage stage, ReadOnlySpan<(int Emitter, int Coefficient)> terms, TransmitterReach reach)
    {
        int order = 0;
        bool own = false;
        foreach ((int emitter, int coefficient) in terms)
        {
            order += Math.Abs(coefficient);
            own |= emitter == stage.Emitter;
            if (coefficient == 0)
            {
                throw new ArgumentException("a coefficient is 0", nameof(terms));
            }
        }

        if (!own || terms.Length < 2 || order > 9)
        {
            throw new ArgumentException("a product of this transmitter contains it and another emitter, order 2 to 9", nameof(terms));
        }

        List<Assumption> assumed = [.. reach.Assumed];
        List<MissingInput> missing = [.. reach.Missing];
        double? under = 0;
        double variance = reach.SigmaDb * reach.SigmaDb;
        if (stage.PowerDbm is null)
        {
            missing.Add(TransmitterReach.NoPower(stage.Name));
        }

        foreach ((int emitter, int coefficient) in terms)
        {
            if (emitter == stage.Emitter)
            {
                continue;
            }

            TransmitterArrival arrival = stage.Arrivals[emitter]
                ?? throw new ArgumentException("an emitter of the product has no arrival at this transmitter", nameof(terms));
            under += Math.Abs(coefficient) * stage.UnderPowerDb(emitter);
            variance += coefficient * arrival.SigmaDb * coefficient * arrival.SigmaDb;
            assumed.AddRange(arrival.Assumed);
            missing.AddRange(arrival.Missing);
            if (stage.UnderPowerDb(emitter) < TransmitterStage.WeakSignalDb)
            {
                assumed.Add(new Assumption(AssumptionKind.SignalNotWeak) { Of = stage.Name, Value = TransmitterStage.WeakSignalDb });
            }
        }

        if (stage.TurnRound is { } turnRound)
        {
            variance += turnRound.SigmaDb(order) * turnRound.SigmaDb(order);
            if (turnRound.AssumedAt(order) is { } assumption)
            {
                assumed.Add(assumption);
            }
        }
        else
        {
            missing.Add(new MissingInput(MissingKind.TurnRoundLoss, stage.Name));
        }

        double? leaves = stage.PowerDbm - under - stage.TurnRound?.At(order) - reach.OutputFilterDb;
        double? arrives = reach.ReferenceDbm - under - stage.TurnRound?.At(order);
        return new TransmitterProductLevel
        {
            LeavesDbm = leaves,
            AtAntennaDbm = arrives,
            SigmaDb = arrives is null ? null : Math.Sqrt(variance),
            Assumed = [.. assumed.Distinct()],
            Missing = [.. missing.Distinct()],
        };
    }
}
