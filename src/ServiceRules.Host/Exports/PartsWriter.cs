using System.Globalization;
using System.Security.Cryptography;
using ServiceRules.Application.Exporting;
using ServiceRules.Evidence;

namespace ServiceRules.Host.Exports;

/// <summary>A file that is kept in parts while it is written.</summary>
/// <param name="store">Where.</param>
/// <param name="id">Which export.</param>
/// <param name="turn">Whose writing it is.</param>
internal sealed class PartsWriter(IExportStore store, string id, string turn) : Stream
{
    // One part is held in memory, and is one short transaction.
    private const int PartBytes = 256 * 1024;

    // Some hundred times what the largest shop has in ten years.
    private const long MostBytes = 1L << 30;

    private readonly IncrementalHash hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly byte[] part = new byte[PartBytes];
    private int held;
    private int number;
    private long written;

    /// <summary>Rows that are written so far.</summary>
    public long Rows { get; set; }

    public override bool CanRead => false;

    public override bool CanSeek => false;

    public override bool CanWrite => true;

    public override long Length => written;

    public override long Position
    {
        get => written;
        set => throw new NotSupportedException();
    }

    /// <summary>Keeps the last part. What it returns is the digest of the file.</summary>
    /// <exception cref="ExportBrokenOffException">Somebody else writes it.</exception>
    public ContentHash Last()
    {
        if (held > 0)
        {
            Keep();
        }

        _ = ContentHash.TryFromBytes(hash.GetHashAndReset(), out var digest);
        return digest;
    }

    /// <summary>Keeps the last part, and that the file is whole.</summary>
    /// <exception cref="ExportBrokenOffException">Somebody else writes it.</exception>
    public void End()
    {
        if (!store.End(id, turn, Rows, Last()))
        {
            throw new ExportBrokenOffException(null);
        }
    }

    /// <exception cref="ExportBrokenOffException">It is too large, or somebody else writes it.</exception>
    public override void Write(ReadOnlySpan<byte> buffer)
    {
        written += buffer.Length;
        if (written > MostBytes)
        {
            throw new ExportBrokenOffException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"it is larger than {MostBytes} bytes; accepted: a filter that lets fewer rows through"
                )
            );
        }

        while (buffer.Length > 0)
        {
            var taken = Math.Min(buffer.Length, PartBytes - held);
            buffer[..taken].CopyTo(part.AsSpan(held));
            held += taken;
            buffer = buffer[taken..];
            if (held == PartBytes)
            {
                Keep();
            }
        }
    }

    public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

    public override Task WriteAsync(
        byte[] buffer,
        int offset,
        int count,
        CancellationToken cancellationToken
    ) => WriteAsync(buffer.AsMemory(offset, count), cancellationToken).AsTask();

    public override ValueTask WriteAsync(
        ReadOnlyMemory<byte> buffer,
        CancellationToken cancellationToken = default
    )
    {
        cancellationToken.ThrowIfCancellationRequested();
        Write(buffer.Span);
        return ValueTask.CompletedTask;
    }

    // Parts are kept when they are full: a flush makes none smaller.
    public override void Flush() { }

    public override int Read(byte[] buffer, int offset, int count) => throw new NotSupportedException();

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            hash.Dispose();
        }

        base.Dispose(disposing);
    }

    private void Keep()
    {
        hash.AppendData(part, 0, held);
        if (!store.Append(id, turn, number, part.AsMemory(0, held), Rows))
        {
            throw new ExportBrokenOffException(null);
        }

        number++;
        held = 0;
    }
}
