namespace ServiceRules.Evidence;

/// <summary>
/// A JSON document in its canonical form. Only <see cref="CanonicalJson"/> makes one, so that a hash taken from here
/// is never the hash of some other spelling of the same document. Equal when the canonical bytes are equal.
/// </summary>
public sealed class CanonicalDocument : IEquatable<CanonicalDocument>
{
    internal CanonicalDocument(byte[] bytes)
    {
        Bytes = bytes;
        Hash = ContentHash.Of(bytes);
    }

    /// <summary>The canonical bytes: UTF-8 without byte order mark, without white space between tokens.</summary>
    public ReadOnlyMemory<byte> Bytes { get; }

    /// <summary>SHA-256 of <see cref="Bytes"/>.</summary>
    public ContentHash Hash { get; }

    /// <inheritdoc/>
    public bool Equals(CanonicalDocument? other) =>
        other is not null && Hash == other.Hash && Bytes.Span.SequenceEqual(other.Bytes.Span);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as CanonicalDocument);

    /// <inheritdoc/>
    public override int GetHashCode() => Hash.GetHashCode();
}
