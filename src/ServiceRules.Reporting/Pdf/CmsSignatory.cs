using PdfSharp.Pdf.Signatures;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Hands the bytes to sign to <see cref="BaselineSignature"/>, and the signature to the authority if there is one.</summary>
internal sealed class CmsSignatory(
    IReportSigner signer,
    SignatureStatement statement,
    ITimestampAuthority? authority
) : IDigitalSigner
{
    public string CertificateName => signer.Certificate.Subject;

    public Task<int> GetSignatureSizeAsync() =>
        Task.FromResult(
            authority is null ? BaselineSignature.ReservedBytes : TimestampedSignature.ReservedBytes
        );

    public async Task<byte[]> GetSignatureAsync(Stream stream)
    {
        // The library's stream is fast only for one read of everything from the start.
        stream.Position = 0;
        var content = new byte[stream.Length];
        var read = await stream.ReadAsync(content);
        if (read != content.Length)
        {
            throw new InvalidOperationException($"{read} of {content.Length} bytes to sign could be read");
        }
        var signature = BaselineSignature.Over(content, signer);
        return authority is null
            ? signature
            : await TimestampedSignature.OverAsync(signature, statement, authority);
    }
}
