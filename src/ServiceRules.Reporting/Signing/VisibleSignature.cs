using System.Globalization;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// What the signature block says. Only what is so when the key is used: who holds the key by its own certificate, the
/// issuing machine's clock, the certificate's fingerprint. Whether it is valid, only a check can say.
/// </summary>
public static class VisibleSignature
{
    public static Block Of(SigningKey key, DateTimeOffset at)
    {
        var ink = Ink.Hex("1d2a35");
        var small = new TextStyle(Face.Narrow, 6.5, ink, 1.2);
        var strong = new TextStyle(Face.NarrowBold, 7.5, ink, 1.25);
        var when = at.ToUniversalTime().ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);
        return new Frame(
            new Stack([
                new Paragraph("Digitally signed", strong),
                new Paragraph($"Certificate: {key.Certificate.Subject}", small),
                new Paragraph($"Time, by the clock of the issuing machine: {when}", small),
                new Paragraph($"Certificate SHA-256: {key.Fingerprint}", small),
            ]),
            new FrameStyle(5, 3) { Outline = new Stroke(ink, 0.5), Fill = Ink.White }
        );
    }
}
