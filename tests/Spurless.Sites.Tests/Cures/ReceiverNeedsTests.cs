using CsCheck;
using Spurless.Sites.Cures;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Sites.Tests.Cures;

/// <summary>What a filter in front of a receiver has to take from each carrier: enough for all mixtures, and of each no more than
/// one of them asks.</summary>
public sealed class ReceiverNeedsTests
{
    // Half a decibel under the limit is what 'just under' means.
    private const double JustUnder = 0.5;

    [Fact]
    public void Of_any_study_brings_every_mixture_of_the_receiver_under_the_limit_and_none_can_be_spared() =>
        Gen.Select(RandomStudies.Receiver(20), Gen.Double[-15, 5]).Sample(static (receiver, limit) =>
        {
            ReceiverNeeds needs = ReceiverNeeds.Of(receiver, limit);
            double[] taken = Taken(receiver, needs);
            (ProductFinding Product, Term[] Terms)[] harmful = [.. Harmful(receiver, limit)];
            foreach ((ProductFinding product, Term[] terms) in harmful)
            {
                double now = Now(product, terms, taken);
                Assert.True(now <= limit - JustUnder + 1e-9, $"{product.OverNoiseDb} dB falls to {now}, the limit is {limit}");
            }

            // A tenth of a decibel less on any one carrier, and a mixture is over again: the last of them that was set is set tight.
            for (int i = 0; i < taken.Length; i++)
            {
                if (taken[i] > 0.1)
                {
                    double[] less = [.. taken];
                    less[i] -= 0.1;
                    Assert.Contains(
                        harmful, p => p.Terms.Any(t => t.Emitter == i) && Now(p.Product, p.Terms, less) > limit - JustUnder + 1e-9);
                }
            }

            Assert.Equal(
                receiver.Products.Count(p => p.OverNoiseDb > limit && p.Mechanism != Mechanism.Receiver), needs.MadeElsewhere);
            Assert.Equal(needs.Carriers.Select(static c => c.FrequencyHz).Order(), needs.Carriers.Select(static c => c.FrequencyHz));
        });

    [Fact]
    public void Of_any_study_with_a_margin_asks_that_much_more_of_each_carrier_and_of_no_other() =>
        Gen.Select(RandomStudies.Receiver(20), Gen.Double[0.5, 10]).Sample(static (receiver, margin) =>
        {
            ReceiverNeeds bare = ReceiverNeeds.Of(receiver), more = ReceiverNeeds.Of(receiver, marginDb: margin);
            Assert.Equal(bare.Carriers.Select(static c => c.Emitter), more.Carriers.Select(static c => c.Emitter));
            Assert.All(bare.Carriers.Zip(more.Carriers), p => Assert.Equal(p.First.AttenuationDb + margin, p.Second.AttenuationDb, 1e-9));
        });

    [Fact]
    public void Of_any_study_that_shall_be_quiet_leaves_no_mixture_of_the_receiver_over_that() =>
        Gen.Select(RandomStudies.Receiver(20), Gen.Double[-30, -10]).Sample(static (receiver, quiet) =>
        {
            double[] taken = Taken(receiver, ReceiverNeeds.Of(receiver, quietDb: quiet));
            foreach ((ProductFinding product, Term[] terms) in Harmful(receiver, double.NegativeInfinity))
            {
                Assert.True(Now(product, terms, taken) <= quiet + 1e-6);
            }
        });

    private static IEnumerable<(ProductFinding Product, Term[] Terms)> Harmful(ReceiverFindings receiver, double limit) => receiver.Products
        .Where(p => p.OverNoiseDb > limit && p.Mechanism == Mechanism.Receiver)
        .Select(p => (p, (Term[])[.. p.Terms.Where(t => receiver.Carriers[t.Emitter].Follows != receiver.Name)]))
        .Where(static p => p.Item2.Length > 0);

    private static double Now(ProductFinding product, Term[] terms, double[] taken) =>
        product.OverNoiseDb!.Value - terms.Sum(t => Math.Abs(t.Coefficient) * taken[t.Emitter]);

    // Emitters of one name and frequency cannot be told apart in the answer: they are given in their order.
    private static double[] Taken(ReceiverFindings receiver, ReceiverNeeds needs)
    {
        double[] taken = new double[receiver.Carriers.Count];
        List<CarrierAttenuation> left = [.. needs.Carriers];
        for (int i = 0; i < taken.Length; i++)
        {
            int at = left.FindIndex(c => c.Emitter == receiver.Carriers[i].Emitter && c.FrequencyHz == receiver.Carriers[i].FrequencyHz);
            if (at >= 0)
            {
                taken[i] = left[at].AttenuationDb;
                left.RemoveAt(at);
            }
        }

        Assert.Empty(left);
        return taken;
    }
}
