using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;

namespace Spurless.Circuits.Touchstone;

/// <summary>What the first line of data decides: how many ports there are, whether name, head and line agree, and the references.</summary>
/// <param name="findings">Gets what is wrong.</param>
/// <param name="header">The head.</param>
/// <param name="portsOfName">Ports by the file's name; null where it says none.</param>
/// <param name="refuse">Says that a file has more ports than two: line and reason.</param>
internal sealed class TouchstoneLayout(Findings findings, TouchstoneHeader header, int? portsOfName, Action<int, string> refuse)
{
    private bool IsVersion2 => header.Version is not null;

    /// <summary>Numbers of a point of data.</summary>
    public static int NumbersPerPoint(TouchstoneHeader header, int ports) => ports == 1 ? 3 : header.Form == MatrixForm.Full ? 9 : 7;

    /// <summary>Number of ports, 1 or 2; null where the file cannot be read, which is said.</summary>
    /// <param name="line">The line with which data begin.</param>
    /// <param name="firstCount">Numbers in it; 0 where it isn't known yet.</param>
    public int? Ports(int line, int firstCount)
    {
        int? ports = IsVersion2 ? header.Ports : portsOfName;
        if (ports > 2)
        {
            refuse(line, string.Create(CultureInfo.InvariantCulture, $"its name says {ports} ports; save the two you need as .s2p"));
            return null;
        }

        if (ports is null && IsVersion2)
        {
            findings.Error(
                line, 1, "the data begin and [Number of Ports] has not been said", "write [Number of Ports] 1 or 2 above [Network Data]");
            return null;
        }

        if (ports is null)
        {
            ports = firstCount == 3 ? 1 : firstCount == 9 ? 2 : null;
            if (ports is null)
            {
                bool more = firstCount > 4 && firstCount % 2 == 1;
                if (more)
                {
                    refuse(line, "the first point has neither 3 numbers (1-port) nor 9 (2-port); save the two ports you need as .s2p");
                }
                else
                {
                    findings.Error(
                        line,
                        1,
                        string.Create(CultureInfo.InvariantCulture, $"the first line of data has {Words(firstCount)}"),
                        "a point has 3 numbers (1-port: frequency and one pair) or 9 (2-port: "
                            + "frequency and four pairs); name the file .s1p or .s2p");
                }

                return null;
            }
        }

        return ports;
    }

    /// <summary>Whether name, head and first line agree, so that points can be read; what does not is said.</summary>
    /// <param name="line">The line with which data begin.</param>
    /// <param name="firstCount">Numbers in it; 0 where it isn't known yet.</param>
    /// <param name="ports">Number of ports.</param>
    public bool Fits(int line, int firstCount, int ports)
    {
        if (IsVersion2 && portsOfName is int named && named != ports)
        {
            findings.Warning(
                header.PortsLine,
                1,
                string.Create(
                    CultureInfo.InvariantCulture, $"the file's name says {named} ports, [Number of Ports] {ports}; the keyword holds"),
                "name the file .ts or after its ports");
        }

        if (!IsVersion2 && firstCount > 0 && firstCount != NumbersPerPoint(header, ports) && firstCount == (ports == 1 ? 9 : 3))
        {
            findings.Error(
                line,
                1,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"each point has {firstCount} numbers, as {(ports == 1 ? "2" : "1")}-port data "
                        + $"have, in a file whose name says {ports}"),
                $"name it .s{(ports == 1 ? "2" : "1")}p");
            return false;
        }

        if (IsVersion2 && ports == 2 && header.Form == MatrixForm.Full && header.FirstIs21 is null)
        {
            findings.Error(
                line,
                1,
                "a two-port of version 2 and no [Two-Port Data Order]",
                "write [Two-Port Data Order] 21_12 or 12_21 above [Network Data]: which of the two stands first decides what is gain");
        }

        return true;
    }

    /// <summary>Reference impedance of each port in ohms.</summary>
    /// <param name="line">The line with which data begin.</param>
    /// <param name="ports">Number of ports.</param>
    public ImmutableArray<Complex> References(int line, int ports)
    {
        ImmutableArray<Complex> said = header.References;
        if (said.IsEmpty)
        {
            said = header.Options.Resistances;
            if (said.Length != 1 && said.Length != ports)
            {
                findings.Error(
                    header.OptionLine,
                    1,
                    string.Create(
                        CultureInfo.InvariantCulture, $"{said.Length} values stand after R, the data have {Words(ports, "port")}"),
                    "give one, or one per port");
                said = [new Complex(50, 0)];
            }
        }
        else if (said.Length != ports)
        {
            findings.Error(
                header.ReferencesLine,
                1,
                string.Create(
                    CultureInfo.InvariantCulture, $"[Reference] has {Words(said.Length, "value")}, the file has {Words(ports, "port")}"),
                "give one value per port");
            said = [new Complex(50, 0)];
        }

        if (header.References.IsEmpty && IsVersion2 && header.Options.Parameter != TouchstoneParameter.S && header.OptionLine == 0)
        {
            findings.Warning(line, 1, "no option line and no [Reference]; 50 ohm is taken", "write [Reference] 50");
        }

        return said.Length == ports ? said : [.. Enumerable.Repeat(said[0], ports)];
    }

    /// <summary>A count with its noun.</summary>
    public static string Words(int count, string what = "number") =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {what}{(count == 1 ? "" : "s")}");
}
