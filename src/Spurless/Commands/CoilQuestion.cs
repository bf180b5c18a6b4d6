using Spurless.Circuits.Coils;
using Spurless.CommandLine;
using Spurless.Reports.Bench;

namespace Spurless.Commands;

/// <summary>What <c>coil</c> was asked: the values of its options.</summary>
internal sealed record CoilQuestion
{
    public double? Turns { get; init; }

    public double? InductanceH { get; init; }

    public double? DiameterM { get; init; }

    public double? FormerM { get; init; }

    public double? LengthM { get; init; }

    public double? WireM { get; init; }

    public double? LeadM { get; init; }

    public double? FrequencyHz { get; init; }

    public required Conductor Metal { get; init; }

    public double? CoreH { get; init; }

    public double? HelicalM { get; init; }

    public ShieldShape Shield { get; init; }

    public LengthPair? Coaxial { get; init; }

    public double? EndF { get; init; }

    /// <summary>The answer.</summary>
    /// <exception cref="UsageException">Options are missing or contradict each other, or there is no such coil.</exception>
    public CoilSheet Answer()
    {
        bool[] kinds = [CoreH is not null, HelicalM is not null, Coaxial is not null];
        if (kinds.Count(static k => k) > 1)
        {
            throw new UsageException("--core, --helical and --coaxial are different things; write one of them");
        }

        return CoreH is { } core ? RingCore(core) : HelicalM is { } size ? Helical(size) : Coaxial is { } pair ? Line(pair) : AirCoil();
    }

    private CoilSheet AirCoil()
    {
        List<string> wrong = [];
        OneOf(wrong, Turns is null, InductanceH is null, "--turns or --inductance");
        OneOf(wrong, DiameterM is null, FormerM is null, "--diameter or --former");
        Needs(wrong, LengthM is null, "--length");
        Needs(wrong, WireM is null, "--wire");
        Useless(wrong, EndF is not null, "--end", "--coaxial");
        Refuse(wrong);
        double wire = WireM!.Value, diameter = DiameterM ?? FormerM!.Value + wire, turns = Turns ?? 0;
        if (InductanceH is { } wanted && !CoilCalculator.TryTurns(wanted, diameter, LengthM!.Value, wire, out turns, out string problem))
        {
            throw new UsageException(problem);
        }

        CoilGeometry geometry = new(turns, diameter, LengthM!.Value, wire, LeadM ?? 0);
        if (CoilCalculator.Problem(geometry) is { } impossible)
        {
            throw new UsageException(impossible);
        }

        return CoilSheet.Of(CoilCalculator.Compute(geometry, FrequencyHz, Metal), InductanceH);
    }

    private CoilSheet RingCore(double core)
    {
        List<string> wrong = [];
        OneOf(wrong, Turns is null, InductanceH is null, "--turns or --inductance");
        NoDimensions(wrong, "--core");
        Useless(wrong, EndF is not null, "--end", "--coaxial");
        Refuse(wrong);
        return CoilSheet.OfToroid(Turns ?? Toroid.Turns(InductanceH!.Value, core), core);
    }

    private CoilSheet Helical(double size)
    {
        List<string> wrong = [];
        Needs(wrong, FrequencyHz is null, "--at");
        NoTurns(wrong, "--helical");
        Useless(wrong, EndF is not null, "--end", "--coaxial");
        Refuse(wrong);
        return CoilSheet.Of(HelicalResonator.For(FrequencyHz!.Value, size, Shield), FrequencyHz.Value, size, Shield);
    }

    private CoilSheet Line(LengthPair pair)
    {
        List<string> wrong = [];
        Needs(wrong, FrequencyHz is null, "--at");
        NoTurns(wrong, "--coaxial");
        Refuse(wrong);
        return CoilSheet.Of(CoaxialResonator.For(FrequencyHz!.Value, pair.InnerM, pair.OuterM, EndF ?? 0, Metal), FrequencyHz.Value, pair.InnerM, pair.OuterM, EndF ?? 0);
    }

    private void NoTurns(List<string> wrong, string kind)
    {
        if (Turns is not null || InductanceH is not null)
        {
            wrong.Add($"{kind} gives the dimensions by the frequency; leave --turns and --inductance out");
        }

        NoDimensions(wrong, kind);
    }

    private void NoDimensions(List<string> wrong, string kind)
    {
        if (DiameterM is not null || FormerM is not null || LengthM is not null || WireM is not null || LeadM is not null)
        {
            wrong.Add($"{kind} takes no dimensions of an air coil; leave --diameter, --former, --length, --wire and --leads out");
        }
    }

    private static void OneOf(List<string> wrong, bool firstMissing, bool secondMissing, string both)
    {
        if (firstMissing == secondMissing)
        {
            wrong.Add(firstMissing ? $"{both} is missing; write one of them" : $"{both} are two ways of saying one thing; write one of them");
        }
    }

    private static void Needs(List<string> wrong, bool missing, string option)
    {
        if (missing)
        {
            wrong.Add($"{option} is missing; 'spurless coil --help' shows an example");
        }
    }

    private static void Useless(List<string> wrong, bool given, string option, string with)
    {
        if (given)
        {
            wrong.Add($"{option} belongs to {with}; write that too, or leave it out");
        }
    }

    private static void Refuse(List<string> wrong)
    {
        if (wrong.Count > 0)
        {
            throw new UsageException(wrong);
        }
    }
}
