using PdfSharp.Pdf.Signatures;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Hands the bytes to sign to <see cref="BaselineSignature"/>.</summary>
internal sealed class CmsSignatory(IReportSigner signer) : IDigitalSigner
{
    public string CertificateName => signer.Certificate.Subject;

    public Task<int> GetSignatureSizeAsync() => Task.FromResult(BaselineSignature.ReservedBytes);

    public async Task<byte[]> GetSignatureAsync(Stream stream)
    {
        // The library's stream is fast only for one read of everything from the start.
        stream.Position = 0;
        var content = new byte[stream.Length];
        var read = await stream.ReadAsync(content);
        return read == content.Length
            ? BaselineSignature.Over(content, signer)
            : throw new InvalidOperationException($"{read} of {content.Length} bytes to sign could be read");
    }
}
