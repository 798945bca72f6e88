"""Who asks, as the desk wants to know it: from an interaction or a message, never from a cache."""

from __future__ import annotations

import discord

from bot.desk import Asker


def space_of(guild_id: int | None, user_id: int, installed_there: bool) -> str:
    """Whose shelf: the server's where the bot is a member of it, else the person's own."""
    return f"guild:{guild_id}" if guild_id is not None and installed_there else f"user:{user_id}"


def asker_of(interaction: discord.Interaction) -> Asker:
    """The asker of an interaction. In a server that did not install the bot, only the person's own data counts."""
    user = interaction.user
    space = space_of(interaction.guild_id, user.id, interaction.is_guild_integration())
    return Asker(
        user=str(user.id),
        name=user.display_name,
        spaces=(space,),
        place=str(interaction.channel_id),
        may_edit=space.startswith("user:") or interaction.permissions.manage_guild,
        roles=_roles(user),
        private_place=interaction.guild_id is None,
    )


def author_of(message: discord.Message) -> Asker:
    """The writer of a message that mentions the bot or was sent to it directly."""
    guild_id = message.guild.id if message.guild is not None else None
    space = space_of(guild_id, message.author.id, True)
    return Asker(
        user=str(message.author.id),
        name=message.author.display_name,
        spaces=(space,),
        place=str(message.channel.id),
        may_edit=space.startswith("user:"),
        roles=_roles(message.author),
        private_place=guild_id is None,
    )


def _roles(user: discord.User | discord.Member) -> tuple[str, ...]:
    """Role ids as the payload has them; the role objects need a cached server and are not asked for."""
    return tuple(str(role) for role in getattr(user, "_roles", ()))
