using System.Text;
using CsCheck;
using Spurless.Files.Diagnostics;
using Spurless.Files.Yaml;

namespace Spurless.Files.Tests.Yaml;

public sealed class TextDecoderTests
{
    private static readonly Gen<string> Good = Pick.From("a", "#", " ", "\t", "\n", "\r\n", "\u0085", "é", "\u2028", "€", "𐌰", "�")
        .Array[0, 40].Select(static pieces => string.Concat(pieces));

    private static (string? Text, string Findings) Decode(ReadOnlySpan<byte> bytes)
    {
        DiagnosticBag bag = new();
        string? text = TextDecoder.Decode(bytes, "f", bag);
        return (text, string.Join("\n", bag.InOrder()));
    }

    [Fact]
    public void Decode_gives_back_any_text_with_and_without_a_byte_order_mark() => Good.Sample(
        static text =>
        {
            byte[] bytes = Encoding.UTF8.GetBytes(text);
            Assert.Equal((text, ""), Decode(bytes));
            Assert.Equal((text, ""), Decode([0xEF, 0xBB, 0xBF, .. bytes]));
        },
        iter: 2_000);

    /// <summary>A byte that UTF-8 never has (RFC 3629 section 1: C0, C1, F5 to FF), put between two characters.</summary>
    [Fact]
    public void Decode_names_the_offset_line_and_column_of_the_first_wrong_byte() =>
        Gen.Select(Good, Good, Pick.From<byte>(0xC0, 0xC1, 0xF5, 0xFE, 0xFF)).Where(static t => t.Item1.Length > 0).Sample(
            (before, after, wrong) =>
            {
                byte[] first = Encoding.UTF8.GetBytes(before);
                YamlPosition at = new LineMap(before).At(before.Length);
                string expected = FormattableString.Invariant(
                    $"f:{at.Line}:{at.Column}: byte {first.Length} ({wrong:X2} in hexadecimal) is not UTF-8; save the file as UTF-8");
                byte[] bytes = [.. first, wrong, .. Encoding.UTF8.GetBytes(after)];
                Assert.Equal((null, expected), Decode(bytes));
            },
            iter: 2_000);

    /// <summary>
    /// RFC 3629 sections 3 and 10: overlong forms, surrogates and what lies beyond U+10FFFF are not UTF-8; nor are cut characters.
    /// </summary>
    [Theory]
    [InlineData("C080")]
    [InlineData("E08080")]
    [InlineData("F0808080")]
    [InlineData("EDA080")]
    [InlineData("EDBFBF")]
    [InlineData("F4908080")]
    [InlineData("E282")]
    [InlineData("F09F98")]
    [InlineData("80")]
    public void Decode_of_malformed_bytes_is_refused(string hexadecimal)
    {
        (string? text, string findings) = Decode([(byte)'a', .. Convert.FromHexString(hexadecimal), (byte)'b']);
        Assert.Null(text);
        Assert.StartsWith("f:1:2: byte 1 (", findings, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData('\u0000', "0000")]
    [InlineData('\u0007', "0007")]
    [InlineData('\u001B', "001B")]
    [InlineData('\u007F', "007F")]
    [InlineData('\u0084', "0084")]
    [InlineData('\uFEFF', "FEFF")]
    [InlineData('\uFFFE', "FFFE")]
    [InlineData('\uFFFF', "FFFF")]
    public void Decode_of_a_control_character_names_it_and_its_place(char control, string code) => Assert.Equal(
        (null, $"f:2:3: the character U+{code} does not belong into a text file; delete it"),
        Decode(Encoding.UTF8.GetBytes("ab\ncd" + control + "e")));

    [Theory]
    [InlineData("FFFE61006200")]
    [InlineData("FEFF00610062")]
    [InlineData("FFFE000061000000")]
    [InlineData("0000FEFF00000061")]
    public void Decode_of_wider_characters_says_so(string hexadecimal) => Assert.Equal(
        (null, "f:1:1: the text is in UTF-16 or UTF-32, at byte 0; save the file as UTF-8"), Decode(Convert.FromHexString(hexadecimal)));

    /// <summary>The limit counts bytes, not characters: 'é' has two.</summary>
    [Fact]
    public void Decode_of_exactly_the_largest_size_is_read_and_one_byte_more_is_not()
    {
        string most = new('é', TextDecoder.MaximumBytes / 2);
        Assert.Equal(most.Length, Decode(Encoding.UTF8.GetBytes(most)).Text?.Length);
        Assert.Equal(
            (null, "f:0:0: the file is larger than 10 MB; split it or leave out what is not needed"),
            Decode(Encoding.UTF8.GetBytes(most + "a")));
    }

    /// <summary>A stream may give what it has in pieces that cut characters.</summary>
    [Fact]
    public void Decode_of_a_stream_in_small_pieces_is_that_of_its_bytes() => Gen.Select(Good, Gen.Int[1, 5]).Sample(
        static (text, piece) =>
        {
            byte[] bytes = Encoding.UTF8.GetBytes(text);
            using PieceStream stream = new(bytes, piece);
            Assert.Equal(text, TextDecoder.Decode(stream, "f", new DiagnosticBag()));
            Assert.True(stream.CanRead, "the stream is the caller's, who closes it");
        },
        iter: 500);

    [Fact]
    public void Decode_of_a_stream_without_end_stops_soon_after_the_limit()
    {
        DiagnosticBag bag = new();
        using PieceStream stream = new(null, 65_536);
        Assert.Null(TextDecoder.Decode(stream, "f", bag));
        Assert.InRange(stream.Given, TextDecoder.MaximumBytes + 1, TextDecoder.MaximumBytes + (2 * 65_536));
        Assert.Equal("the file is larger than 10 MB", Assert.Single(bag.InOrder()).What);
    }

    /// <summary>Gives at most so many bytes a reading; without bytes of its own it gives '#' for ever.</summary>
    private sealed class PieceStream(byte[]? bytes, int piece) : Stream
    {
        private bool _open = true;

        public long Given { get; private set; }

        public override bool CanRead => _open;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => Given;
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            int now = Math.Min(count, piece);
            if (bytes is null)
            {
                buffer.AsSpan(offset, now).Fill((byte)'#');
            }
            else
            {
                now = (int)Math.Min(now, bytes.Length - Given);
                bytes.AsSpan((int)Given, now).CopyTo(buffer.AsSpan(offset));
            }

            Given += now;
            return now;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            _open = false;
            base.Dispose(disposing);
        }
    }
}
