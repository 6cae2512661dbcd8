using PdfSharp.Pdf.Signatures;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Signs nothing: for a file that is only drawn in order to be held against another.</summary>
internal sealed class EmptySignatory(string name) : IDigitalSigner
{
    private static readonly byte[] Placeholder = [0];

    public string CertificateName => name;

    public Task<int> GetSignatureSizeAsync() => Task.FromResult(Placeholder.Length);

    public Task<byte[]> GetSignatureAsync(Stream stream) => Task.FromResult(Placeholder);
}
