using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// What the signature block says. Only what is so when the key is used: who holds the key by its own certificate, the
/// issuing machine's clock, who was asked for a time-stamp, the certificate's fingerprint. Whether it is valid, only a
/// check can say.
/// </summary>
public static class VisibleSignature
{
    public static Block Of(SignatureStatement statement)
    {
        var ink = Ink.Hex("1d2a35");
        var small = new TextStyle(Face.Narrow, 6.5, ink, 1.2);
        var strong = new TextStyle(Face.NarrowBold, 7.5, ink, 1.25);
        var lines = new List<string>
        {
            $"Certificate: {statement.Certificate.Subject}",
            $"Time, by the clock of the issuing machine: {UtcTime.Print(statement.At)}",
        };
        if (statement.TimestampAskedOf is { } authority)
        {
            lines.Add($"Time-stamp (RFC 3161) inside the signature, asked of: {authority}");
        }
        lines.Add($"Certificate SHA-256: {CertificateFingerprint.Of(statement.Certificate)}");
        return new Frame(
            new Stack([
                new Paragraph("Digitally signed", strong),
                .. lines.Select(line => new Paragraph(line, small)),
            ]),
            new FrameStyle(5, 3) { Outline = new Stroke(ink, 0.5), Fill = Ink.White }
        );
    }
}
