using Spurless.Circuits.Parts;
using Spurless.Radio.Quantities;
using Line = Spurless.Circuits.Parts.Line;

namespace Spurless.Workbench.Desk;

/// <summary>The values of a circuit's parts as things that can be moved.</summary>
internal static class DeskParts
{
    /// <summary>The values of a circuit's parts.</summary>
    /// <param name="path">The path of its file, by which the items are known.</param>
    /// <param name="circuit">The circuit; null for a sweep, which has none.</param>
    public static List<DeskItem> Of(string path, Circuit? circuit)
    {
        List<DeskItem> items = [];
        foreach (Part part in circuit?.Parts ?? [])
        {
            (string what, string text, string[] keys, Func<Part, string, Part?> change)? found = part switch
            {
                Inductor { Inductance.Value: > 0 and { } value } =>
                    ("inductance", Inductance.FromHenries(value).ToString(), ["inductor"], DeskTexts.Inductor),
                Capacitor { Capacitance.Value: > 0 and { } value } =>
                    ("capacitance", Capacitance.FromFarads(value).ToString(), ["capacitor"], DeskTexts.Capacitor),
                Resistor { Resistance.Value: > 0 and { } value } =>
                    ("resistance", Resistance.FromOhms(value).ToString(), ["resistor"], DeskTexts.Resistor),
                Coil coil => ("length of the winding", Length.FromMetres(coil.LengthM).ToString(), ["coil", "length"], DeskTexts.Coil),
                Line { Length.Value: > 0 and { } value } =>
                    ("length of the line", Length.FromMetres(value).ToString(), ["line", "length"], DeskTexts.Line),
                Stub { Length.Value: > 0 and { } value } =>
                    ("length of the stub", Length.FromMetres(value).ToString(), ["line", "length"], DeskTexts.Line),
                _ => null,
            };
            if (found is { } f)
            {
                DeskItem item = new()
                {
                    Id = $"part.{path}.{part.Name}",
                    Name = part.Name,
                    Effect = $"{part.Name}, {f.what}, {Where(part)}: moves the response of the filter",
                    FileValue = 0,
                    Target = new PartField(path, part.Name, ["parts", part.Name, .. f.keys], f.change, part),
                };
                if (DeskScale.Proportional(item, f.text) is { } scaled)
                {
                    items.Add(scaled);
                }
            }
        }

        return items;
    }

    private static string Where(Part part) => part.Nodes switch
    {
        [var from, Circuit.Ground] => $"from {from} to ground",
        [Circuit.Ground, var to] => $"from {to} to ground",
        [var from, var to] => $"between {from} and {to}",
        _ => "in the circuit",
    };
}
