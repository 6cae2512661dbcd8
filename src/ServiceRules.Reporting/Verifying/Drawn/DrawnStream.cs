using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;

namespace ServiceRules.Reporting.Verifying.Drawn;

/// <summary>The bytes of a stream as far as they say anything.</summary>
internal static partial class DrawnStream
{
    /// <summary>
    /// What a compressed stream holds. Two builds of one compressor may write one content in two ways, so only the
    /// content can be compared.
    /// </summary>
    /// <param name="compressed">As it stands in the file.</param>
    /// <param name="lengthMax">More than this is not unpacked.</param>
    /// <returns>The content; null when it is longer or broken.</returns>
    public static byte[]? Unpacked(ReadOnlyMemory<byte> compressed, int lengthMax)
    {
        try
        {
            using var source = new MemoryStream(compressed.ToArray(), writable: false);
            using var unpacking = new ZLibStream(source, CompressionMode.Decompress);
            var content = new byte[lengthMax + 1];
            var length = unpacking.ReadAtLeast(content, content.Length, throwOnEndOfStream: false);
            return length <= lengthMax ? content[..length] : null;
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    /// <summary>The description without its identifiers, which are drawn by lot for each file.</summary>
    public static string WithoutIdentifiers(ReadOnlySpan<byte> metadata) =>
        Identifier().Replace(Encoding.Latin1.GetString(metadata), "");

    [GeneratedRegex("(?<=uuid:)[0-9a-fA-F]{8}(-[0-9a-fA-F]{4}){3}-[0-9a-fA-F]{12}")]
    private static partial Regex Identifier();
}
