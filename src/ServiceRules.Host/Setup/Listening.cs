using System.Net;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Logging.Console;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Limits;

namespace ServiceRules.Host.Setup;

/// <summary>Where the service listens, and how it lives: in a terminal, as a unit of systemd, as a service of Windows.</summary>
internal static class Listening
{
    private static readonly TimeSpan HeaderTime = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan IdleTime = TimeSpan.FromSeconds(30);

    /// <summary>Without TLS passwords and keys would be read on the way.</summary>
    /// <exception cref="StartRefusedException">Others than this machine could reach it in the clear.</exception>
    public static void Check(IPAddress address, TlsFiles? tls)
    {
        if (!IPAddress.IsLoopback(address) && tls is null)
        {
            throw new StartRefusedException(
                $"--address: `{address}` can be reached from other machines, and without TLS passwords and keys could be "
                    + "read on the way; accepted: a loopback address, such as 127.0.0.1 or ::1, or --certificate beside it"
            );
        }
    }

    public static string Told(ServiceSettings settings) =>
        new IPEndPoint(settings.Address, settings.Port).ToString();

    public static void Listen(
        this WebApplicationBuilder builder,
        ServiceSettings settings,
        ServiceCertificate? certificate
    )
    {
        builder.Host.UseSystemd();
        builder.Services.AddWindowsService(options => options.ServiceName = "servicerules");
        builder.Services.Configure<HostOptions>(options =>
            options.ShutdownTimeout = settings.Limits.StopTime
        );
        builder.Logging.AddFilter("Microsoft", LogLevel.Warning);
        builder.Logging.AddFilter("Microsoft.Extensions.Diagnostics.HealthChecks", LogLevel.Error);
        // It warns that its keys are not encrypted: the folder around them is private.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
        // Whoever sends no good key or form is told so; strangers do not fill the log of the service.
        builder.Logging.AddFilter(typeof(KeyScheme).FullName, LogLevel.Warning);
        builder.Logging.AddFilter("Microsoft.AspNetCore.Antiforgery", LogLevel.Error);
        builder.Services.Configure<ConsoleLoggerOptions>(options =>
            options.LogToStandardErrorThreshold = LogLevel.Trace
        );
        var ofOneAddress = new ConnectionLimit(settings.Limits.ConnectionsOfOneAddress, settings.Proxy);
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            // Settings of the surroundings could open further doors.
            kestrel.ConfigurationLoader = null;
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = settings.Limits.BodyBytes;
            kestrel.Limits.MaxConcurrentConnections = settings.Limits.Connections;
            kestrel.Limits.RequestHeadersTimeout = HeaderTime;
            // Also for a connection over which nothing was asked yet.
            kestrel.Limits.KeepAliveTimeout = IdleTime;
            kestrel.Listen(
                settings.Address,
                settings.Port,
                endpoint =>
                {
                    endpoint.Use(next => connection => ofOneAddress.TakeAsync(connection, next));
                    if (certificate is not null)
                    {
                        endpoint.UseHttps(
                            new HttpsConnectionAdapterOptions
                            {
                                ServerCertificate = certificate.Certificate,
                                ServerCertificateChain = certificate.Chain,
                                HandshakeTimeout = HeaderTime,
                            }
                        );
                    }
                }
            );
        });
    }
}
