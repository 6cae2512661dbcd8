using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;

namespace ServiceRules.Host.Notices;

/// <summary>Sends notices as mail.</summary>
internal static class MailDelivery
{
    private const int TimeoutMilliseconds = 30_000;

    /// <returns>Why it was not taken; null: it was.</returns>
    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever it was, the mail was not taken, and is sent again."
    )]
    public static async Task<string?> SendAsync(
        MailSettings settings,
        MailSettings.Reader to,
        WrittenNotice notice,
        CancellationToken stop
    )
    {
        using var message = Message(settings, to, notice);
        using var client = new SmtpClient { Timeout = TimeoutMilliseconds };
        try
        {
            await client.ConnectAsync(settings.Server, settings.Port, Security(settings), stop);
            if (settings.User is { } user)
            {
                await client.AuthenticateAsync(user, settings.Password!, stop);
            }

            _ = await client.SendAsync(message, stop);
        }
        catch (SmtpCommandException refused)
        {
            return string.Create(
                CultureInfo.InvariantCulture,
                $"the mail server answered {(int)refused.StatusCode}"
            );
        }
        // Also what the server cannot do, as STARTTLS or a sign-in: whoever set it up has to hear of it.
        catch (Exception failure) when (!stop.IsCancellationRequested)
        {
            return $"the mail server did not take it: {failure.GetType().Name}";
        }

        await LeaveAsync(client, stop);
        return null;
    }

    // It was taken; how the server is left changes nothing.
    [SuppressMessage("Design", "CA1031", Justification = "A mail that was taken must not be sent again.")]
    private static async Task LeaveAsync(SmtpClient client, CancellationToken stop)
    {
        try
        {
            await client.DisconnectAsync(true, stop);
        }
        catch (Exception) { }
    }

    private static SecureSocketOptions Security(MailSettings settings) =>
        settings.Security switch
        {
            "tls" => SecureSocketOptions.SslOnConnect,
            "starttls" => SecureSocketOptions.StartTls,
            _ => SecureSocketOptions.None,
        };

    private static MimeMessage Message(MailSettings settings, MailSettings.Reader to, WrittenNotice notice)
    {
        var message = new MimeMessage
        {
            // The same at each attempt: mail programs show one of several.
            MessageId = $"{notice.Id}@{notice.Link.Host}",
            Date = notice.At,
            Subject = notice.Subject,
        };
        message.From.Add(MailboxAddress.Parse(settings.From));
        message.To.Add(MailboxAddress.Parse(to.Address));
        message.Headers.Add(HeaderId.AutoSubmitted, "auto-generated");
        message.Headers.Add("Notice-Id", notice.Id);
        message.Body = new TextPart("plain") { Text = notice.Text };
        return message;
    }
}
