using System.Buffers;
using System.Runtime.InteropServices;
using System.Text;

namespace ServiceRules.Evidence;

/// <summary>The growing canonical text, with the one operation that canonical order needs: putting members in order.</summary>
internal sealed class CanonicalOutput
{
    private readonly List<byte> _bytes = [];

    public int Length => _bytes.Count;

    public byte[] ToArray() => [.. _bytes];

    public void Append(byte symbol) => _bytes.Add(symbol);

    public void Append(ReadOnlySpan<byte> text) => _bytes.AddRange(text);

    public void AppendNumber(double value)
    {
        Span<byte> text = stackalloc byte[EcmaScriptNumber.MaxLength];
        Append(text[..EcmaScriptNumber.Write(value, text)]);
    }

    /// <summary>RFC 8785 section 3.2.2.2: the two-character escapes where JSON has them, else lower-case \u00xx.</summary>
    public void AppendString(string value)
    {
        Append((byte)'"');
        var utf8 = ArrayPool<byte>.Shared.Rent(Encoding.UTF8.GetMaxByteCount(value.Length));
        try
        {
            var length = Encoding.UTF8.GetBytes(value, utf8);
            foreach (var unit in utf8.AsSpan(0, length))
            {
                AppendUnit(unit);
            }
        }
        finally
        {
            ArrayPool<byte>.Shared.Return(utf8);
        }

        Append((byte)'"');
    }

    /// <summary>Replaces everything from <paramref name="start"/> on by the members in the order given.</summary>
    public void Reorder(int start, IReadOnlyList<CanonicalMember> members)
    {
        var written = CollectionsMarshal.AsSpan(_bytes)[start..].ToArray();
        CollectionsMarshal.SetCount(_bytes, start);
        for (var index = 0; index < members.Count; index++)
        {
            if (index > 0)
            {
                Append((byte)',');
            }

            Append(written.AsSpan(members[index].Start - start, members[index].Length));
        }
    }

    private void AppendUnit(byte unit)
    {
        switch (unit)
        {
            case (byte)'"':
                Append("\\\""u8);
                break;
            case (byte)'\\':
                Append("\\\\"u8);
                break;
            case (byte)'\b':
                Append("\\b"u8);
                break;
            case (byte)'\t':
                Append("\\t"u8);
                break;
            case (byte)'\n':
                Append("\\n"u8);
                break;
            case (byte)'\f':
                Append("\\f"u8);
                break;
            case (byte)'\r':
                Append("\\r"u8);
                break;
            case < 0x20:
                Append("\\u00"u8);
                Append((byte)(unit < 0x10 ? '0' : '1'));
                Append("0123456789abcdef"u8[unit & 0xF]);
                break;
            default:
                Append(unit);
                break;
        }
    }
}
