using System.Reflection;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using Spurless.Acceptance.Running;

namespace Spurless.Acceptance.House;

/// <summary>
/// Every method, property and field of src/ is used by the product itself: what tests alone call belongs to the tests. Looked at over the
/// compiled code of all rooms; what is called from elsewhere by rule (interfaces, overrides, records, components, entry points) is no
/// finding.
/// </summary>
public class UncalledMembersTests
{
    private const BindingFlags All =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Static | BindingFlags.Instance | BindingFlags.DeclaredOnly;

    /// <summary>What the product may have without calling it: a member, all of a type or a folder, each with its reason.</summary>
    private static readonly Dictionary<string, string> Allowed = new(StringComparer.Ordinal)
    {
        // The public face of the packed libraries: whoever builds on them makes values and asks single questions.
        ["Spurless.Radio.Quantities"] = "each quantity is made from a number and from a text",
        ["Spurless.Radio.Emissions.Emission"] = "the same for an emission designator, and its bandwidth written",
        ["Spurless.Radio.Noise"] = "noise and its sums, levels and field strengths, singly",
        ["Spurless.Radio.Paths.OffAxis.GainDbi"] = "an antenna's gain beside its main direction",
        ["Spurless.Radio.Paths.PathModels.TryParse"] = "a path model by its name",
        ["Spurless.Radio.Terrain.TerrainProfile.Reversed"] = "a path the other way round",
        ["Spurless.Circuits.TwoPorts.TwoPortAlgebra"] = "conversions between the parameters of a two-port",
        ["Spurless.Circuits.Touchstone.TouchstoneData"] = "what a file stated of itself",
        ["Spurless.Circuits.Solving.CircuitSolver"] = "one solution at the nominal values, without memory of one's own",
        ["Spurless.Fit.FitResult.Of"] = "a value by its part",
        ["Spurless.Sites.Sources.SiteLoader.Load"] = "a site from a folder in one call",
        ["Spurless.Sites.Documents.ObservationLog.Spans"] = "how long each state was held",

        // Steps whose figures stand in a published example, held against it one by one.
        ["Spurless.Radio.Terrain.TerrainLoss.Steps"] = "ITU-R P.1812, worked examples",
        ["Spurless.Radio.Terrain.TerrainSteps"] = "ITU-R P.1812, worked examples",
        ["Spurless.Radio.Terrain.PathAnalysis"] = "ITU-R P.1812, worked examples",
        ["Spurless.Design.Prototypes"] = "the closed forms of the textbooks against which the built filters are held",
        ["Spurless.Design.Families.LadderFilters.BandPass"] = "the band-pass of the tables, against which its relatives are held",

        // What tests of a kernel look at: to take it out would leave the kernel blind.
        ["Spurless.Circuits.Solving.GradientBuffer.S22"] = "derivatives of the third S-parameter, as of the other two",
        ["Spurless.Fit.InstrumentErrors.PlanesOnly"] = "a fit of the circuit alone, without residuals of a calibration",
        ["Spurless.Mixing.Search.TopProducts.Of"] = "the strongest that a search kept",
        ["Spurless.Mixing.Forecast.SpectralForecast"] = "the forecast's spectrum, against counting",
        ["Spurless.Numerics.GridPlace.Of"] = "a value between two points of a grid",
        ["Spurless.Register.RegisterStore"] = "what is in a register, and whether two are alike",
        ["Spurless.Reports.Text.TextTable.ToText"] = "a table as one text",
        ["Spurless.Workbench.Desk.StudyDesk.Study"] = "a study of the desk without waiting for a page",
    };

    private static readonly Assembly[] Rooms =
    [
        .. Directory.GetDirectories(Repository.PathOf("src"), "Spurless*").Select(static d => Assembly.Load(Path.GetFileName(d)!)),
    ];

    [Fact]
    public void Members_of_the_product_are_used_by_the_product()
    {
        HashSet<(Module, int)> used = Used();
        string[] found =
        [
            .. Candidates().Where(m => !used.Contains((m.Module, m.MetadataToken))).Select(Name).Distinct()
                .Where(static n => !Allowed.Keys.Any(k => n == k || n.StartsWith(k + ".", StringComparison.Ordinal)))
                .Order(StringComparer.Ordinal),
        ];
        Assert.True(found.Length == 0, $"{found.Length} members that the product never calls:\n{string.Join('\n', found)}");
    }

    [Fact]
    public void Allowances_are_still_needed()
    {
        HashSet<(Module, int)> used = Used();
        string[] uncalled = [.. Candidates().Where(m => !used.Contains((m.Module, m.MetadataToken))).Select(Name)];
        Assert.DoesNotContain(Allowed.Keys, k => !uncalled.Any(n => n == k || n.StartsWith(k + ".", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_rule_sees_what_is_called_and_what_is_not()
    {
        HashSet<(Module, int)> used = Used();
        MethodInfo called = typeof(Radio.Quantities.MegahertzText).GetMethod("InWords")!;
        Assert.Contains((called.Module, called.MetadataToken), used);
        MethodInfo ownTest = typeof(UncalledMembersTests).GetMethod(nameof(The_rule_sees_what_is_called_and_what_is_not))!;
        Assert.DoesNotContain((ownTest.Module, ownTest.MetadataToken), used);
        Assert.InRange(Candidates().Count(), 3_000, 100_000);
        Assert.DoesNotContain(Candidates(), static m => m.Name is "PrintMembers" or "<Clone>$" or "GetHashCode");
    }

    private static HashSet<(Module, int)> Used() =>
    [
        .. from room in Rooms
           from type in room.GetTypes()
           from method in type.GetMethods(All).Cast<MethodBase>().Concat(type.GetConstructors(All))
           from member in TypeReferences.Named(method)
           where member is MethodBase or FieldInfo && !(member.Module == method.Module && member.MetadataToken == method.MetadataToken)
           select (member.Module, member.MetadataToken),
    ];

    /// <summary>Methods, getters of properties and fields that somebody wrote and that nothing but a call can reach.</summary>
    private static IEnumerable<MemberInfo> Candidates()
    {
        foreach (Type type in Rooms.SelectMany(static r => r.GetTypes()).Where(static t =>
            !IsGenerated(t) && !t.IsEnum && !t.IsInterface && !t.IsSubclassOf(typeof(Delegate))))
        {
            foreach (MethodInfo method in type.GetMethods(All))
            {
                bool isSetter = method.IsSpecialName && method.Name.StartsWith("set_", StringComparison.Ordinal);
                bool isOperator = method.IsSpecialName && method.Name.StartsWith("op_", StringComparison.Ordinal);
                bool isEvent = method.IsSpecialName && (method.Name.StartsWith("add_", StringComparison.Ordinal)
                    || method.Name.StartsWith("remove_", StringComparison.Ordinal));

                // What implements an interface is virtual and final in compiled code.
                bool fulfils = method is { IsVirtual: true, IsFinal: true } || method.GetBaseDefinition() != method;
                if (!method.IsPrivate && !isSetter && !isOperator && !isEvent && !fulfils && !IsGenerated(method) && method.Name != "Main")
                {
                    yield return method;
                }
            }

            foreach (FieldInfo field in type.GetFields(All).Where(static f => !f.IsPrivate && !f.IsLiteral && !IsGenerated(f)))
            {
                yield return field;
            }
        }
    }

    private static bool IsGenerated(MemberInfo member) =>
        (member.IsDefined(typeof(CompilerGeneratedAttribute), false) && !IsProperty(member))
            || member.Name.Contains('<', StringComparison.Ordinal) || member.IsDefined(typeof(JSInvokableAttribute), false)
            || (member is MethodInfo m && PropertyOf(m) is { } p && (p.IsDefined(typeof(ParameterAttribute))
                || p.IsDefined(typeof(CascadingParameterAttribute)) || p.Name == "EqualityContract"))
            || member is Type { Name: "_Imports" };

    private static bool IsProperty(MemberInfo member) => member is MethodInfo { IsSpecialName: true };

    private static PropertyInfo? PropertyOf(MethodInfo method) =>
        method.IsSpecialName && method.Name.StartsWith("get_", StringComparison.Ordinal)
            ? method.DeclaringType!.GetProperty(method.Name[4..], All) : null;

    private static string Name(MemberInfo member) =>
        $"{member.DeclaringType!.FullName!.Replace('+', '.')}.{(IsProperty(member) ? member.Name[4..] : member.Name)}";
}
