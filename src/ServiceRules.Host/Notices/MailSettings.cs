using System.Collections.Immutable;
using MimeKit;

namespace ServiceRules.Host.Notices;

/// <summary>The mail server that takes what people are told, and who they are.</summary>
/// <param name="Server">Its name.</param>
/// <param name="Port">Its port.</param>
/// <param name="Security"><c>tls</c>, <c>starttls</c>, or <c>none</c> on loopback.</param>
/// <param name="From">Whom mails come from.</param>
/// <param name="To">Who is told.</param>
internal sealed record MailSettings(
    string Server,
    int Port,
    string Security,
    string From,
    ImmutableArray<MailSettings.Reader> To
)
{
    private const int MostPort = 65535;

    public string? User { get; init; }

    public string? Password { get; init; }

    public string? Fault() =>
        Security is not ("tls" or "starttls" or "none") ? "`security` is none of `tls`, `starttls`, `none`"
        : Security == "none" && !IsHere(Server) ? "`security` may be `none` on loopback alone"
        : Port is < 1 or > MostPort ? "`port` is no port"
        : User is null != Password is null ? "`user` and `password` go together"
        : !MailboxAddress.TryParse(From, out _) ? "`from` is no address"
        : To.FirstOrDefault(one => !MailboxAddress.TryParse(one.Address, out _)) is { } unfit
            ? $"the address of `{unfit.Name}` is none"
        : null;

    private static bool IsHere(string server) => server is "localhost" or "127.0.0.1" or "::1";

    /// <summary>Somebody, or a list of people.</summary>
    /// <param name="Name">What they are called in notices.</param>
    /// <param name="Address">Their address.</param>
    internal sealed record Reader(string Name, string Address)
    {
        public ImmutableArray<string> On { get; init; }

        /// <summary>The site that they are told of; left out: every one.</summary>
        public string? Site { get; init; }
    }
}
