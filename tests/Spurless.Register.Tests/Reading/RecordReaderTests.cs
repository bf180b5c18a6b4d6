using System.Text;
using CsCheck;
using Spurless.Register.Reading;

namespace Spurless.Register.Tests.Reading;

/// <summary>Records of separated fields: what a writer by the rules wrote is what is read, and what breaks the rules loses no more than
/// itself.</summary>
public sealed class RecordReaderTests
{
    // Fields as registers have them; blanks round a field do not count.
    private static readonly Gen<string> _field = Gen.String[
        Gen.OneOf('a', 'b', 'Z', '0', '9', ' ', ',', '"', '.', '-', '/', '='), 0, 9].Select(static f => f.Trim(' '));

    // Free text stands last, and its line feeds become blanks. (A line within a text that has all the fields of a record is one by the
    // reader's rule, so there are no separators in it.)
    private static readonly Gen<string> _text = Gen.String[Gen.OneOf('a', 'b', 'Z', '0', '9', ' ', '\n', '.', '-'), 0, 12]
        .Select(static f => f.Trim(' ', '\n'));

    [Fact]
    public void Quoted_records_of_any_fields_read_back_as_they_were() =>
        Gen.Int[2, 6].SelectMany(static width => Gen.Select(_field.Array[width - 1], _text, static (f, t) => (string[])[.. f, t])
            .Array[1, 6]).Sample(static records =>
        {
            int width = records[0].Length;

            // By RFC 4180: every field quoted, quotes doubled. A record of nothing but empty fields is written all the same.
            string text = string.Concat(records.Select(static r => string.Join(
                ',', r.Select(static f => "\"" + f.Replace("\"", "\"\"", StringComparison.Ordinal) + "\"")) + "\r\n"));
            RecordReader reader = new(new MemoryStream(Encoding.ASCII.GetBytes(text)), new RecordShape((byte)',', true, width));
            foreach (string[] record in records)
            {
                Assert.True(reader.TryRead());
                Assert.True(reader.IsWhole, text);
                Assert.Equal(width, reader.Count);
                Assert.Equal(
                    record.Select(static f => f.Replace('\n', ' ')), Enumerable.Range(0, width).Select(i => ColumnText.Text(reader[i])));
            }

            Assert.False(reader.TryRead());
        });

    [Fact]
    public void Piped_records_with_broken_lines_read_back_joined() =>
        Gen.Select(Gen.String[Gen.OneOf('a', 'b', ' ', ',', '\''), 0, 6].Array[3].Array[1, 5], Gen.Int[0, 4]).Sample(
            static (records, broken) =>
            {
                // One record has a line feed in its last field but one: the rest of it stands on a line that begins no record.
                string[][] clean = [.. records.Select(static r => (string[])["HD", .. r.Select(static f => f.Trim()), "end"])];
                StringBuilder text = new();
                for (int i = 0; i < clean.Length; i++)
                {
                    string line = string.Join('|', clean[i]);
                    text.Append(i == broken ? line.Insert(line.LastIndexOf('|'), "\nmore") : line).Append('\n');
                }

                RecordReader reader = new(new MemoryStream(Encoding.ASCII.GetBytes(text.ToString())), RecordShape.Piped("HD", 5));
                for (int i = 0; i < clean.Length; i++)
                {
                    Assert.True(reader.TryRead());
                    Assert.True(reader is { IsWhole: true, IsBegun: true });
                    string[] expected = i == broken ? [.. clean[i][..3], (clean[i][3] + " more").Trim(), "end"] : clean[i];
                    Assert.Equal(expected, Enumerable.Range(0, reader.Count).Select(f => ColumnText.Text(reader[f]).Trim()));
                }

                Assert.False(reader.TryRead());
            });

    [Fact]
    public void A_record_too_short_stands_alone_and_takes_no_other_with_it()
    {
        RecordReader reader = new(
            new MemoryStream("a,b,c\nd,e\nf,g,h\n\n \ni,j,k"u8.ToArray()), new RecordShape((byte)',', true, 3));
        List<(string First, bool Whole, long Line)> read = [];
        while (reader.TryRead())
        {
            read.Add((ColumnText.Text(reader[0]), reader.IsWhole, reader.Line));
        }

        Assert.Equal([("a", true, 1L), ("d", false, 2L), ("f", true, 3L), ("i", true, 6L)], read);
        Assert.True(reader[99].IsEmpty);
    }

    [Fact]
    public void A_quote_left_open_takes_what_follows_only_to_the_next_whole_record()
    {
        RecordReader reader = new(
            new MemoryStream("a,\"open,c\nd,e,f\ng,h,i\n"u8.ToArray()), new RecordShape((byte)',', true, 3));
        List<string> firsts = [];
        while (reader.TryRead())
        {
            firsts.Add(ColumnText.Text(reader[0]));
        }

        Assert.Equal(["a", "d", "g"], firsts);
    }
}
