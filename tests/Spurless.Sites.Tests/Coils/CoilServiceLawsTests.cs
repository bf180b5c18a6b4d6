using CsCheck;
using Spurless.Sites.Coils;

namespace Spurless.Sites.Tests.Coils;

/// <summary>Coils asked for in every way that a question has: what is answered, asked again, is what was wanted.</summary>
public sealed class CoilServiceLawsTests
{
    private static readonly Gen<AirCoilQuestion> _coils = Gen.Select(
        Gen.Double[2, 15], Gen.Double[4e-3, 30e-3], Gen.Double[1.5, 3],
            Gen.Double[0.03, 0.12]).Select(static (turns, diameter, spacing, wire) =>
            new AirCoilQuestion
            {
                Turns = turns,
                DiameterM = diameter,
                LengthM = turns * spacing * wire * diameter,
                WireM = wire * diameter
            });

    private static AirCoilAnswer Ask(AirCoilQuestion question)
    {
        Outcome<CoilAnswer> outcome = CoilService.Ask(question);
        Assert.True(outcome.Answer is not null, outcome.Problem);
        return Assert.IsType<AirCoilAnswer>(outcome.Answer);
    }

    /// <summary>
    /// The turns found for an inductance give it (the formula's two halves meet with a step of 3e-6, on which a search may end), and
    /// pressed or pulled to the length that is told, whole turns give it too.
    /// </summary>
    [Fact]
    public void Ask_for_an_inductance_is_answered_by_windings_that_have_it() => _coils.Sample(static coil =>
    {
        double wanted = Ask(coil).Coil.InductanceH;
        AirCoilAnswer found = Ask(coil with { Turns = null, InductanceH = wanted });
        Assert.Equal(1, found.Coil.InductanceH / wanted, 1e-5);
        Assert.Equal(Math.Max(1, Math.Round(found.Coil.Geometry.Turns)), found.Whole!.Turns);
        if (found.Whole.LengthM is { } length)
        {
            Assert.Equal(1, Ask(coil with { Turns = found.Whole.Turns, LengthM = length }).Coil.InductanceH / wanted, 1e-5);
        }
    });

    [Fact]
    public void Ask_at_a_frequency_is_answered_by_windings_that_have_it_there() => Gen.Select(_coils, Gen.Double[5e6, 100e6]).Sample(
        static (coil, hertz) =>
        {
            if (Ask(coil with { FrequencyHz = hertz }).Coil.InductanceAtFrequencyH is not { } wanted
                || Ask(coil with { Turns = null, InductanceH = wanted, FrequencyHz = hertz }).AtFrequency is not { } wound)
            {
                return;
            }

            Assert.Equal(1, Ask(coil with { Turns = wound.Turns, FrequencyHz = hertz }).Coil.InductanceAtFrequencyH!.Value / wanted, 1e-5);
            if (wound.Whole.LengthM is { } length)
            {
                AirCoilAnswer whole = Ask(coil with { Turns = wound.Whole.Turns, LengthM = length, FrequencyHz = hertz });
                Assert.Equal(1, whole.Coil.InductanceAtFrequencyH!.Value / wanted, 1e-5);
            }
        });

    /// <summary>A former is a coil's inside: one wire less than its diameter from centre to centre.</summary>
    [Fact]
    public void Ask_on_a_former_is_the_coil_a_wire_wider() => _coils.Sample(static coil =>
    {
        AirCoilAnswer wide = Ask(coil), former = Ask(coil with { DiameterM = null, FormerM = coil.DiameterM - coil.WireM });
        Assert.Equal(1, former.Coil.InductanceH / wide.Coil.InductanceH, 1e-9);
        Assert.Equal(coil.DiameterM!.Value, former.Coil.Geometry.DiameterM, 1e-12);
    });

    /// <summary>Leads add their own inductance and nothing else, twice as much as one of them has.</summary>
    [Fact]
    public void Ask_with_leads_adds_them() => Gen.Select(_coils, Gen.Double[1e-3, 30e-3]).Sample(static (coil, lead) =>
    {
        AirCoilAnswer without = Ask(coil), with = Ask(coil with { LeadM = lead });

        // mu0/(2 pi) l (ln(4 l/d) - 1) each: the inductance of a straight round wire at high frequency (textbook, from memory).
        double one = Math.Max(0, 2e-7 * lead * (Math.Log(4 * lead / coil.WireM) - 1));
        Assert.Equal(2 * one, with.Coil.LeadInductanceH, 1e-15);
        Assert.Equal(0, without.Coil.LeadInductanceH);
        Assert.Equal(without.Coil.SheetInductanceH, with.Coil.SheetInductanceH);
    });

    [Fact]
    public void Ask_of_a_ring_core_goes_with_the_square_of_the_turns() => Gen.Select(Gen.Double[1e-9, 100e-9], Gen.Double[1, 60]).Sample(
        static (core, turns) =>
        {
            RingCoreAnswer forward = Core(new RingCoreQuestion { InductancePerTurnSquaredH = core, Turns = turns });
            RingCoreAnswer back = Core(new RingCoreQuestion { InductancePerTurnSquaredH = core, InductanceH = forward.InductanceH });
            Assert.Equal(turns, back.Turns, 1e-9);
            Assert.Equal(core * turns * turns, forward.InductanceH, 1e-18);
            Assert.True(back.WholeTurns >= 1 && Math.Abs(back.WholeTurns - turns) <= 0.5 + 1e-9 && back.WholeTurns % 1 == 0);
            Assert.Equal(core * back.WholeTurns * back.WholeTurns, back.WholeInductanceH, 1e-18);
        });

    private static RingCoreAnswer Core(RingCoreQuestion question) => Assert.IsType<RingCoreAnswer>(CoilService.Ask(question).Answer);

    /// <summary>A coil that cannot be is refused in words with a remedy, never answered with a number.</summary>
    [Fact]
    public void Ask_for_what_cannot_be_is_a_refusal() => Gen.Select(_coils, Gen.Int[0, 5]).Sample(static (coil, wrong) =>
    {
        AirCoilQuestion question = wrong switch
        {
            0 => coil with { Turns = -coil.Turns },
            1 => coil with { LengthM = 0 },
            2 => coil with { WireM = coil.DiameterM!.Value * 1.01 },
            3 => coil with { DiameterM = double.NaN },
            4 => coil with { LeadM = -1e-3 },
            _ => coil with { WireM = double.PositiveInfinity },
        };
        Outcome<CoilAnswer> outcome = CoilService.Ask(question);
        Assert.Null(outcome.Answer);
        Assert.NotEmpty(outcome.Refusal!.What);
        Assert.StartsWith("write ", outcome.Refusal.Remedy, StringComparison.Ordinal);
    });
}
