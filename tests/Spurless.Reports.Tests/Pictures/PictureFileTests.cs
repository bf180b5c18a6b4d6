using System.Buffers.Binary;
using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Xml.Linq;
using CsCheck;
using Spurless.Drawing.Studies;
using Spurless.Reports.Pictures;
using Spurless.Reports.Recordings;
using Spurless.Reports.Tests.Text;
using Spurless.Signals.Listening;
using Spurless.Sites.Studies;
using Spurless.Tests.Common;

namespace Spurless.Reports.Tests.Pictures;

/// <summary>Pictures that leave the program: SVG that any reader of XML takes, PNG by its standard, the same figures as a table.</summary>
public sealed class PictureFileTests
{
    [Fact]
    public void Svg_of_any_study_is_xml_that_asks_for_nothing() => RandomStudies.Receiver().Sample(
        static receiver =>
        {
            // XML 1.0 has no place for most control characters: a name that holds one is printed plainly.
            string svg = PictureFile.SvgAsync(StudyPictureModel.Of(receiver, new StudyOptions()), 728, null).GetAwaiter().GetResult();
            XElement root = XDocument.Parse(svg).Root!;
            Assert.Equal("http://www.w3.org/2000/svg", root.Name.NamespaceName);
            Assert.Equal("728", root.Attribute("width")!.Value);
            Assert.DoesNotContain("var(", svg, StringComparison.Ordinal);
            Assert.DoesNotContain("url(http", svg, StringComparison.Ordinal);
            Assert.DoesNotContain(root.Descendants(), static e => e.Name.LocalName is "script" or "image" or "foreignObject");
            Assert.DoesNotContain("NaN", svg, StringComparison.Ordinal);
        },
        iter: 60);

    [Fact]
    public void Csv_of_any_study_has_every_carrier_and_mixture_and_no_formula() => RandomStudies.Receiver().Sample(
        static receiver =>
        {
            StudyPictureModel model = StudyPictureModel.Of(receiver, new StudyOptions());
            List<List<string>> rows = WrittenText.Csv(PictureFile.Csv(model));
            Assert.All(rows, r => Assert.Equal(rows[0].Count, r.Count));
            Assert.All(rows.SelectMany(static r => r), WrittenText.NoFormula);
            Assert.Equal(receiver.Carriers.Count, rows.Count(static r => r[0] == "carrier"));
            Assert.Equal(model.Findings.Count, rows.Count(static r => r[0] == "mixture"));
            double[] response = [.. rows.Where(static r => r[0] == "response").Select(static r =>
                double.Parse(r[3], CultureInfo.InvariantCulture))];
            Assert.Equal(801, response.Length);
            Assert.Equal(response.Order(), response);
        },
        iter: 40);

    // PNG (ISO/IEC 15948): signature, chunks of length, name, data and CRC-32; one filter octet a row.
    [Fact]
    public void Grey_picture_is_a_png_whose_loudest_cell_is_the_darkest() =>
        Gen.Select(Gen.Int[1, 40], Gen.Int[1, 30], Gen.Byte.Array[1200]).Sample(static (columns, rows, cells) =>
        {
            string address = GreyPicture.DataAddress(new Spectrogram(columns, rows, cells[..(columns * rows)]));
            Assert.StartsWith("data:image/png;base64,", address, StringComparison.Ordinal);
            byte[] png = Convert.FromBase64String(address[22..]);
            Assert.Equal([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], png[..8]);
            List<(string Name, byte[] Body)> chunks = [];
            for (int at = 8; at < png.Length;)
            {
                int length = BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(at));
                Assert.Equal(Crc(png.AsSpan(at + 4, length + 4)), BinaryPrimitives.ReadUInt32BigEndian(png.AsSpan(at + 8 + length)));
                chunks.Add((Encoding.ASCII.GetString(png, at + 4, 4), png[(at + 8)..(at + 8 + length)]));
                at += 12 + length;
            }

            Assert.Equal(["IHDR", "IDAT", "IEND"], chunks.Select(static c => c.Name));
            Assert.Equal(columns, BinaryPrimitives.ReadInt32BigEndian(chunks[0].Body));
            Assert.Equal(rows, BinaryPrimitives.ReadInt32BigEndian(chunks[0].Body.AsSpan(4)));
            using ZLibStream zip = new(new MemoryStream(chunks[1].Body), CompressionMode.Decompress);
            using MemoryStream pixels = new();
            zip.CopyTo(pixels);
            byte[] raw = pixels.ToArray();
            Assert.Equal(rows * (columns + 1), raw.Length);

            // The lowest frequency (row 0 of a column) stands at the bottom; louder is never lighter.
            (byte Cell, byte Grey)[] all =
            [
                .. from c in Enumerable.Range(0, columns) from r in Enumerable.Range(0, rows)
                   select (cells[(c * rows) + r], raw[((rows - 1 - r) * (columns + 1)) + 1 + c]),
            ];
            (byte Cell, byte Grey)[] byLoudness = [.. all.OrderBy(static p => p.Cell)];
            Assert.All(byLoudness.Zip(byLoudness.Skip(1)), static p => Assert.True(
                p.Second.Cell == p.First.Cell ? p.Second.Grey == p.First.Grey : p.Second.Grey <= p.First.Grey));
        },
        iter: 60);

    // ITU-T V.42's 32-bit check, bit by bit, as the standard defines it.
    private static uint Crc(ReadOnlySpan<byte> octets)
    {
        uint crc = 0xFFFFFFFF;
        foreach (byte octet in octets)
        {
            for (int bit = 0; bit < 8; bit++)
            {
                uint top = (crc ^ (uint)(octet >> bit)) & 1;
                crc = (crc >> 1) ^ (top == 1 ? 0xEDB88320 : 0);
            }
        }

        return ~crc;
    }
}
