using Spurless.Sites.Studies;

namespace Spurless.Sites.Cures;

/// <summary>What a filter in front of a receiver must take from one carrier.</summary>
/// <param name="Emitter">The emitter's name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="AttenuationDb">Least insertion loss there in dB, above 0.</param>
public sealed record CarrierAttenuation(string Emitter, long FrequencyHz, double AttenuationDb);

/// <summary>The needs of one receiver.</summary>
/// <param name="Receiver">The receiver's name.</param>
/// <param name="FrequencyHz">Its frequency in hertz.</param>
/// <param name="ChannelHz">Its channel raster in hertz.</param>
/// <param name="Carriers">What is needed, by rising frequency; empty where nothing harmful is made in the receiver.</param>
/// <param name="MadeElsewhere">Harmful products that no filter at the receiver takes away.</param>
/// <param name="OwnOnly">Harmful products of the receiver's own transmitter alone, which a filter that passes the channel hardly
/// touches.</param>
public sealed record ReceiverNeeds(
    string Receiver, long FrequencyHz, long ChannelHz, IReadOnlyList<CarrierAttenuation> Carriers, int MadeElsewhere, int OwnOnly)
{
    private const double JustUnder = 0.5;

    /// <summary>The least attenuations with which every product made in the receiver lies just under a limit.</summary>
    /// <param name="findings">The receiver without any filter.</param>
    /// <param name="limitDb">Over the noise, in dB: 0 for harmful.</param>
    /// <param name="marginDb">Added to every attenuation; products that then still lie over <paramref name="quietDb"/> get more.</param>
    /// <param name="quietDb">Over the noise, in dB: where a product with the margin must lie at most.</param>
    /// <remarks>
    /// A product x dB over falls by <c>sum |k_i| a_i</c>. Equal shares first, the greatest of a carrier's counting; then, from the carrier
    /// nearest to the channel on, where a decibel is dearest, each is lowered as far as the products let it. The result is one of many that
    /// cannot be lowered any more, half a decibel under the limit.
    /// </remarks>
    public static ReceiverNeeds Of(
        ReceiverFindings findings, double limitDb = 0, double marginDb = 0, double quietDb = double.PositiveInfinity)
    {
        ArgumentNullException.ThrowIfNull(findings);
        int elsewhere = 0, own = 0;
        List<(double Excess, Term[] Terms)> products = [], all = [];
        foreach (ProductFinding product in findings.Products.Where(static p => p.OverNoiseDb is not null))
        {
            bool harmful = product.OverNoiseDb > limitDb;
            Term[] others = [.. product.Terms.Where(t => findings.Carriers[t.Emitter].Follows != findings.Name)];
            if (product.Mechanism != Mechanism.Receiver || others.Length == 0)
            {
                elsewhere += harmful && product.Mechanism != Mechanism.Receiver ? 1 : 0;
                own += harmful && product.Mechanism == Mechanism.Receiver ? 1 : 0;
                continue;
            }

            all.Add((product.OverNoiseDb!.Value, others));
            if (harmful)
            {
                products.Add((product.OverNoiseDb.Value - limitDb + JustUnder, others));
            }
        }

        double[] needed = Least(products, findings);
        if (marginDb > 0)
        {
            for (int i = 0; i < needed.Length; i++)
            {
                needed[i] += needed[i] > 0 ? marginDb : 0;
            }
        }

        // What the margin does not make quiet by itself.
        for (bool raised = true; raised && double.IsFinite(quietDb);)
        {
            raised = false;
            foreach ((double over, Term[] terms) in all)
            {
                double left = over - quietDb - terms.Sum(t => Math.Abs(t.Coefficient) * needed[t.Emitter]);
                if (left > 1e-9)
                {
                    double share = (left + JustUnder) / terms.Sum(static t => Math.Abs(t.Coefficient));
                    foreach (Term term in terms)
                    {
                        needed[term.Emitter] += share;
                    }

                    raised = true;
                }
            }
        }

        return new(
            findings.Name,
            findings.FrequencyHz,
            findings.ChannelHz,
            [
                .. needed.Select((db, i) => new CarrierAttenuation(findings.Carriers[i].Emitter, findings.Carriers[i].FrequencyHz, db))
                    .Where(static n => n.AttenuationDb > 0)
                        .OrderBy(static n => n.FrequencyHz)
                        .ThenBy(static n => n.Emitter, StringComparer.Ordinal),
            ],
            elsewhere,
            own);
    }

    private static double[] Least(List<(double Excess, Term[] Terms)> products, ReceiverFindings findings)
    {
        double[] needed = new double[findings.Carriers.Count];
        foreach ((double excess, Term[] terms) in products)
        {
            double share = excess / terms.Sum(static t => Math.Abs(t.Coefficient));
            foreach (Term term in terms)
            {
                needed[term.Emitter] = Math.Max(needed[term.Emitter], share);
            }
        }

        foreach (
            int i in Enumerable.Range(0, needed.Length)
                .Where(i => needed[i] > 0)
                .OrderBy(i => Math.Abs(findings.Carriers[i].FrequencyHz - findings.FrequencyHz))
                .ThenBy(static i => i))
        {
            double least = 0;
            foreach ((double excess, Term[] terms) in products.Where(p => p.Terms.Any(t => t.Emitter == i)))
            {
                double others = terms.Where(t => t.Emitter != i).Sum(t => Math.Abs(t.Coefficient) * needed[t.Emitter]);
                least = Math.Max(least, (excess - others) / terms.Where(t => t.Emitter == i).Sum(static t => Math.Abs(t.Coefficient)));
            }

            needed[i] = least;
        }

        return needed;
    }
}
