using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// Lets the platform's writers of signatures and revocation lists sign through <see cref="IReportSigner"/>: a key
/// that signs and has no private part to hand out.
/// </summary>
internal sealed class SignerKey : ECDsa
{
    private const int SignatureBytes = 64;

    private readonly IReportSigner _signer;
    private readonly ECDsa _public;

    public SignerKey(IReportSigner signer)
    {
        _signer = signer;
        _public =
            signer.Certificate.GetECDsaPublicKey()
            ?? throw new CryptographicException("the certificate of the signer holds no ECDSA key");
        KeySizeValue = _public.KeySize;
        LegalKeySizesValue = [new KeySizes(KeySizeValue, KeySizeValue, 0)];
    }

    public override byte[] SignHash(byte[] hash)
    {
        var signature = _signer.SignDigest(hash);
        // A token that answers with the wrong key, or with nonsense, must not put its mark on a report.
        return signature.Length == SignatureBytes && _public.VerifyHash(hash, signature)
            ? LowSignature.Of(signature)
            : throw new CryptographicException(
                $"what the signer of `{_signer.Certificate.Subject}` answered is no signature by the key of its certificate"
            );
    }

    public override bool VerifyHash(byte[] hash, byte[] signature) => _public.VerifyHash(hash, signature);

    public override ECParameters ExportParameters(bool includePrivateParameters) =>
        includePrivateParameters
            ? throw new CryptographicException("the private key stays with the signer")
            : _public.ExportParameters(includePrivateParameters: false);

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _public.Dispose();
        }

        base.Dispose(disposing);
    }
}
